import 'server-only';
import type { Anchor } from '../../../core/calendar';
import { unitValues } from '../../../core/equipment/unit-fields';
import {
  fold,
  kitchenKey,
  type KnownUnit,
  type KitchenValues,
  type OnFile,
  type RowValues,
  type TaskKindInfo,
} from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
import { toLocalDate } from '../../../core/calendar/date-column';
import { weekly } from '../../visits/reads/visits';

type KitchenRow = Omit<KitchenValues, 'serviceHours' | 'preferredWeekday'> & { serviceHours: unknown; preferredWeekday: number | null };

const values = (k: KitchenRow): KitchenValues => ({
  address: k.address, timeZone: k.timeZone, altitudeM: k.altitudeM, lat: k.lat, lng: k.lng, serviceHours: weekly(k.serviceHours), accessNotes: k.accessNotes,
  contactName: k.contactName, contactPhone: k.contactPhone, contactEmail: k.contactEmail, energyPricePerKwh: k.energyPricePerKwh, hotDayAirK: k.hotDayAirK,
  preferredWeekday: k.preferredWeekday as KitchenValues['preferredWeekday'],
}); // prettier-ignore

/** What an import must know of what is on file: names, tags, and the kitchens' own fields. */
export async function fleetOnFile(db: Tx): Promise<OnFile> {
  // One after the other: inside a transaction there is one connection.
  const customers = await db.customer.findMany({ select: { id: true, name: true, archivedAt: true } });
  const kitchens = await db.kitchen.findMany({ include: { customer: { select: { name: true } } } });
  const units = await db.unit.findMany({ select: { kitchenId: true, name: true, tag: true, archivedAt: true } });
  const namesIn = new Map<string, Set<string>>();
  for (const u of units) {
    if (u.archivedAt) continue;
    const names = namesIn.get(u.kitchenId) ?? new Set();
    namesIn.set(u.kitchenId, names.add(fold(u.name)));
  }
  return {
    customers: new Map(customers.map((c) => [fold(c.name), { id: c.id, archived: c.archivedAt !== null }])),
    kitchens: new Map(
      kitchens.map((k) => [
        kitchenKey(k.customer.name, k.name),
        {
          id: k.id,
          version: k.version,
          archived: k.archivedAt !== null,
          values: values(k),
          placedByHand: k.positionFrom === 'hand',
          units: namesIn.get(k.id) ?? new Set<string>(),
        },
      ]),
    ),
    tags: new Set(units.map((u) => u.tag.toUpperCase())),
  };
}

/** Every unit on file, as a sheet may be about it. */
export async function knownUnitsOnFile(db: Tx): Promise<KnownUnit[]> {
  const units = await db.unit.findMany({
    where: { archivedAt: null, kitchen: { archivedAt: null } },
    include: { kitchen: { select: { name: true, customer: { select: { name: true } } } } },
  });
  return units.map((u) => ({
    id: u.id,
    version: u.version,
    customer: u.kitchen.customer.name,
    kitchen: u.kitchen.name,
    values: unitValues(u),
  }));
}

/** Kinds of task that a file has columns for. */
export const fleetTaskKinds = (db: Tx): Promise<TaskKindInfo[]> =>
  db.taskKind.findMany({
    where: { active: true },
    orderBy: [{ sort: 'asc' }, { key: 'asc' }],
    select: { key: true, label: true, defaultWeeks: true, minWeeks: true, maxWeeks: true },
  });

const KITCHENS_AT_ONCE = 40;

/** Every unit on file as a row, by customer, kitchen and name; some kitchens at a time, so that no fleet is held whole. */
export async function* fleetRows(db: Tx): AsyncGenerator<RowValues[]> {
  const kitchens = await db.kitchen.findMany({
    where: { archivedAt: null, units: { some: { archivedAt: null } } },
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }],
    select: { id: true },
  });
  for (let i = 0; i < kitchens.length; i += KITCHENS_AT_ONCE)
    yield await rowsOf(db, kitchens.slice(i, i + KITCHENS_AT_ONCE).map((k) => k.id)); // prettier-ignore
}

async function rowsOf(db: Tx, kitchenIds: string[]): Promise<RowValues[]> {
  const units = await db.unit.findMany({
    where: { archivedAt: null, kitchenId: { in: kitchenIds } },
    include: { kitchen: { include: { customer: { select: { name: true } } } }, tasks: true },
    orderBy: [{ kitchen: { customer: { name: 'asc' } } }, { kitchen: { name: 'asc' } }, { name: 'asc' }],
  });
  return units.map(({ kitchen, tasks, ...u }) => ({
    names: { customer: kitchen.customer.name, kitchen: kitchen.name },
    kitchen: values(kitchen),
    unit: unitValues(u),
    tasks: new Map(
      tasks.map((t) => [
        t.kindKey,
        t.active
          ? { rule: t.rule, anchor: t.anchor as Anchor, firstDue: toLocalDate(t.anchorDate), lastDoneOn: t.lastDoneOn ? toLocalDate(t.lastDoneOn) : undefined, locked: t.locked }
          : { rule: 'none' },
      ]),
    ),
  })); // prettier-ignore
}
