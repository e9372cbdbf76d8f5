import 'server-only';
import type { Actor } from '../../../core/people/access';
import { addDays, weekdayOf, type LocalDate } from '../../../core/calendar';
import { Prisma, type Db } from '../../../database/client';
import { fromLocalDate } from '../../../core/calendar/date-column';

/** Queues the search for a week; the week that holds `day`. Returns the run's id. */
export async function startPlan(
  { db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date },
  input: { day: LocalDate },
): Promise<string> {
  const monday = addDays(input.day, -weekdayOf(input.day));
  const run = await db.planRun.create({ data: { createdById: actor.userId, weekStart: fromLocalDate(monday), createdAt: now } });
  return run.id;
}

/** Stops a search. What it had found is dropped; nothing was booked. */
export async function cancelPlan({ db, now }: { db: Db; now: Date }, runId: string): Promise<void> {
  await db.planRun.updateMany({
    where: { id: runId, status: { in: ['queued', 'running', 'done'] } },
    data: { status: 'cancelled', result: Prisma.DbNull, finishedAt: now },
  });
}
