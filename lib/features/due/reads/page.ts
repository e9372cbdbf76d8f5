import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import type { Bucket } from '../../../core/due/buckets';
import { Prisma, type Tx } from '../../../database/client';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { bucketTable, narrowed, type DueFilter, type Zones } from './where';

/** Place in the list of kitchens, which is ordered by their longest overdue task. */
export type DueCursor = { soonest: LocalDate; kitchenId: string };

export type DueTask = {
  id: string;
  unitId: string;
  unit: string;
  placement: string;
  refrigerant: string;
  roofWork: boolean;
  kindKey: string;
  kind: string;
  minutes: number;
  rule: string;
  locked: boolean;
  dueOn: LocalDate;
  lastDoneOn: LocalDate | null;
  visitId: string | null;
  visitStartsAt: number | null;
  technician: string | null;
};
export type DueKitchen = {
  id: string;
  name: string;
  customerId: string;
  customer: string;
  address: string;
  timeZone: string;
  today: LocalDate;
  soonest: LocalDate;
  tasks: DueTask[];
};

type Group = { kitchenId: string; soonest: Date; tasks: number };

/** Tasks of one page, as far as whole kitchens allow: what a person can look through, and a browser draws at once. */
const MOST_TASKS = 150;

/** The first kitchens whose tasks fit on a page, at least one. */
function thatFit(groups: readonly Group[], limit: number): Group[] {
  let room = MOST_TASKS;
  return groups.slice(0, limit).filter((g, i) => (room -= g.tasks) >= 0 || i === 0);
}
type Row = Omit<DueTask, 'dueOn' | 'lastDoneOn' | 'visitStartsAt'> & {
  kitchenId: string;
  dueOn: Date;
  lastDoneOn: Date | null;
  visitStartsAt: Date | null;
};

/** A page of kitchens with their tasks of one bucket, the longest overdue first. */
export async function duePage(
  db: Tx,
  zones: Zones,
  bucket: Bucket,
  filter: DueFilter,
  o: { after?: DueCursor; limit: number },
): Promise<{ kitchens: DueKitchen[]; next: DueCursor | null }> {
  if (zones.length === 0) return { kitchens: [], next: null };
  const { table, least, most } = bucketTable(zones, bucket);
  const where = Prisma.sql`t.active AND k."archivedAt" IS NULL AND t."dueOn" >= ${least}::date AND t."dueOn" < ${most}::date AND t."dueOn" >= z.lo AND t."dueOn" < z.hi ${narrowed(filter)}`;
  const after = o.after
    ? Prisma.sql`HAVING (min(t."dueOn"), t."kitchenId") > (${fromLocalDate(o.after.soonest)}::date, ${o.after.kitchenId}::uuid)`
    : Prisma.empty;
  const groups = await db.$queryRaw<Group[]>`
    WITH z(zone, today, lo, hi) AS (VALUES ${table})
    SELECT t."kitchenId", min(t."dueOn") AS soonest, count(*)::int AS tasks
    FROM "Task" t JOIN "Kitchen" k ON k.id = t."kitchenId" JOIN z ON z.zone = k."timeZone"
    WHERE ${where}
    GROUP BY t."kitchenId" ${after}
    ORDER BY soonest, t."kitchenId" LIMIT ${o.limit + 1}`;
  const shown = thatFit(groups, o.limit);
  if (shown.length === 0) return { kitchens: [], next: null };
  const ids = shown.map((g) => g.kitchenId);
  const [kitchens, rows] = await Promise.all([
    db.kitchen.findMany({ where: { id: { in: ids } }, include: { customer: { select: { name: true } } } }),
    db.$queryRaw<Row[]>`
      WITH z(zone, today, lo, hi) AS (VALUES ${table})
      SELECT t.id, t."kitchenId", t."unitId", u.name AS unit, u.placement, u.refrigerant, u."roofWork", t."kindKey", tk.label AS kind, tk.minutes, t.rule, t.locked, t."dueOn", t."lastDoneOn",
        v.id AS "visitId", v."startsAt" AS "visitStartsAt", tech.name AS technician
      FROM "Task" t JOIN "Kitchen" k ON k.id = t."kitchenId" JOIN z ON z.zone = k."timeZone"
      JOIN "Unit" u ON u.id = t."unitId" JOIN "TaskKind" tk ON tk.key = t."kindKey"
      LEFT JOIN "VisitTask" ov ON ov."taskId" = t.id AND ov.open LEFT JOIN "Visit" v ON v.id = ov."visitId" LEFT JOIN "User" tech ON tech.id = v."technicianId"
      WHERE t."kitchenId" = ANY(${ids}::uuid[]) AND ${where}
      ORDER BY t."dueOn", u.name, tk.sort`,
  ]);
  const kitchenOf = new Map(kitchens.map((k) => [k.id, k]));
  const todayOf = new Map(zones.map((z) => [z.zone, z.dates.today]));
  const last = shown[shown.length - 1];
  return {
    next: groups.length > shown.length && last ? { soonest: toLocalDate(last.soonest), kitchenId: last.kitchenId } : null,
    kitchens: shown.flatMap(({ kitchenId, soonest }) => {
      const k = kitchenOf.get(kitchenId);
      const today = k && todayOf.get(k.timeZone);
      if (!k || !today) return [];
      const tasks = rows
        .filter((r) => r.kitchenId === kitchenId)
        .map(({ kitchenId: _, dueOn, lastDoneOn, visitStartsAt, ...r }) => ({
          ...r,
          dueOn: toLocalDate(dueOn),
          lastDoneOn: lastDoneOn && toLocalDate(lastDoneOn),
          visitStartsAt: visitStartsAt?.getTime() ?? null,
        }));
      return [
        {
          id: k.id,
          name: k.name,
          customerId: k.customerId,
          customer: k.customer.name,
          address: k.address,
          timeZone: k.timeZone,
          today,
          soonest: toLocalDate(soonest),
          tasks,
        },
      ];
    }),
  };
}
