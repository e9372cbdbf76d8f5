import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';

type Row = { kitchenId: string; kitchen: string; customer: string; tasks: bigint; soonest: Date; total: bigint };

/** Kitchens with work due before `before` that stands on no open visit: the first `limit`, the longest overdue first, and how many there are. */
export async function unbookedKitchens(db: Tx, before: LocalDate, limit: number) {
  const rows = await db.$queryRaw<Row[]>`
    WITH due AS (
      SELECT t."kitchenId", count(*) AS tasks, min(t."dueOn") AS soonest FROM "Task" t
      WHERE t.active AND t."dueOn" < ${fromLocalDate(before)}::date
        AND NOT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = t.id AND vt.open)
      GROUP BY t."kitchenId"
    )
    SELECT k.id AS "kitchenId", k.name AS kitchen, c.name AS customer, d.tasks, d.soonest, count(*) OVER () AS total
    FROM due d JOIN "Kitchen" k ON k.id = d."kitchenId" AND k."archivedAt" IS NULL JOIN "Customer" c ON c.id = k."customerId"
    ORDER BY d.soonest, k.name, k.id
    LIMIT ${limit}`;
  return {
    kitchens: rows.map(({ total: _, ...r }) => ({ ...r, tasks: Number(r.tasks), soonest: toLocalDate(r.soonest) })),
    total: Number(rows[0]?.total ?? 0),
  };
}
