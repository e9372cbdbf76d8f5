import 'server-only';
import type { Anchor, LocalDate } from '../../../core/calendar';
import { unitValues, type UnitValues } from '../../../core/equipment/unit-fields';
import type { RowValues } from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
import { kitchenValues, type KitchenRow } from './fleet';

/** So few that what is read of them is gone again before a collector takes it for lasting: the server's memory does not grow by them. */
const KITCHENS_AT_ONCE = 4;

type TaskRow = [
  key: string,
  active: boolean,
  rule: string,
  anchor: Anchor,
  anchorDate: LocalDate,
  lastDoneOn: LocalDate | null,
  locked: boolean,
];
type KitchenOnFile = { customer: string; kitchen: KitchenRow & { name: string }; units: { unit: UnitValues; tasks: TaskRow[] | null }[] };

/** Every unit on file as a row, by customer, kitchen and name; some kitchens at a time, so that no fleet is held whole. */
export async function* fleetRows(db: Tx): AsyncGenerator<RowValues[]> {
  const kitchens = await db.kitchen.findMany({
    where: { archivedAt: null, units: { some: { archivedAt: null } } },
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }, { id: 'asc' }],
    select: { id: true },
  });
  for (let i = 0; i < kitchens.length; i += KITCHENS_AT_ONCE)
    yield await rowsOf(db, kitchens.slice(i, i + KITCHENS_AT_ONCE).map((k) => k.id)); // prettier-ignore
}

/** A kitchen once with its units as lists, put together by the database: as records beside one another they are twenty times as much to read. */
async function rowsOf(db: Tx, kitchenIds: string[]): Promise<RowValues[]> {
  const rows = await db.$queryRaw<KitchenOnFile[]>`
    SELECT c.name AS customer, to_json(k) AS kitchen, (
      SELECT json_agg(json_build_object('unit', u, 'tasks', (
        SELECT json_agg(json_build_array(t."kindKey", t.active, t.rule, t.anchor, t."anchorDate", t."lastDoneOn", t.locked)) FROM "Task" t WHERE t."unitId" = u.id
      )) ORDER BY u.name, u.id) FROM "Unit" u WHERE u."kitchenId" = k.id AND u."archivedAt" IS NULL) AS units
    FROM "Kitchen" k JOIN "Customer" c ON c.id = k."customerId" WHERE k.id = ANY(${kitchenIds}::uuid[]) ORDER BY c.name, k.name, k.id`;
  return rows.flatMap(({ customer, kitchen, units }) => {
    const names = { customer, kitchen: kitchen.name };
    const shared = kitchenValues(kitchen);
    return units.map(({ unit, tasks }) => ({ names, kitchen: shared, unit: unitValues(unit), tasks: new Map(tasks?.map(taskOf)) }));
  });
}

const taskOf = ([key, active, rule, anchor, firstDue, lastDoneOn, locked]: TaskRow): [
  string,
  RowValues['tasks'] extends Map<string, infer T> ? T : never,
] => [key, active ? { rule, anchor, firstDue, lastDoneOn: lastDoneOn ?? undefined, locked } : { rule: 'none' }];
