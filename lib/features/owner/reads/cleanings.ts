import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { groupBy } from '../../../core/numerics/group-by';
import { COIL_CLEANING } from '../../../core/tasks';
import type { Tx } from '../../../database/client';

/** Dates on which coils were cleaned since a day, by unit. */
export async function cleaningsSince(db: Tx, from: LocalDate): Promise<Map<string, LocalDate[]>> {
  const rows = await db.$queryRaw<{ unitId: string; on: Date }[]>`
    SELECT vt."unitId", (coalesce(v."arrivedAt", v."startsAt") AT TIME ZONE k."timeZone")::date AS on
    FROM "VisitTask" vt JOIN "Task" t ON t.id = vt."taskId" AND t."kindKey" = ${COIL_CLEANING} JOIN "Visit" v ON v.id = vt."visitId" AND v.status = 'done'
      JOIN "Kitchen" k ON k.id = v."kitchenId"
    WHERE vt.outcome = 'done' AND v."startsAt" >= ${from}::date ORDER BY 2`;
  return new Map([...groupBy(rows, (r) => r.unitId)].map(([id, list]) => [id, [...new Set(list.map((r) => toLocalDate(r.on)))]]));
}
