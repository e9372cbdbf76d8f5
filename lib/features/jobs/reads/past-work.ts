import 'server-only';
import { addDays, todayIn, type LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { REPEAT_WITHIN_DAYS, type PastWork } from '../../../core/jobs';
import type { Tx } from '../../../database/client';

/** What was done at a kitchen's units in the days before a call that count against it: tasks, and jobs closed as done. */
export async function pastWorkBefore(
  db: Tx,
  kitchen: { id: string; timeZone: string },
  on: LocalDate,
): Promise<(PastWork & { visitId: string | null; by: string | null })[]> {
  const since = fromLocalDate(addDays(on, -REPEAT_WITHIN_DAYS - 1));
  const until = fromLocalDate(addDays(on, 1));
  const tasks = await db.visitTask.findMany({
    where: { outcome: 'done', visit: { kitchenId: kitchen.id, status: 'done', startsAt: { gte: since, lt: until } } },
    select: {
      unitId: true,
      task: { select: { kind: { select: { label: true } } } },
      visit: { select: { id: true, startsAt: true, leftAt: true, technician: { select: { name: true } } } },
    },
  });
  const jobs = await db.job.findMany({
    where: { kitchenId: kitchen.id, state: 'done', closedAt: { gte: since, lt: until } },
    select: {
      what: true,
      closedAt: true,
      createdAt: true,
      visitId: true,
      closedBy: { select: { name: true } },
      units: { select: { unitId: true } },
    },
  });
  const day = (at: Date) => todayIn(kitchen.timeZone, at.getTime());
  return [
    ...tasks.map(({ unitId, task, visit }) => ({
      unitId,
      on: day(visit.leftAt ?? visit.startsAt),
      what: task.kind.label,
      visitId: visit.id,
      by: visit.technician.name,
    })),
    ...jobs.flatMap((j) =>
      j.units.map(({ unitId }) => ({
        unitId,
        on: day(j.closedAt ?? j.createdAt),
        what: j.what,
        visitId: j.visitId,
        by: j.closedBy?.name ?? null,
      })),
    ),
  ];
}
