import 'server-only';
import { addDays, todayIn } from '../../../../core/calendar';
import { fromLocalDate } from '../../../../core/calendar/date-column';
import { causeOfWords, JOB_URGENCIES, soonOf } from '../../../../core/jobs';
import { openJobs } from '../../../jobs/verbs/open-job';
import type { ApplyContext, Handler } from '../context';
import { twinOf } from '../twin';
import { unitOnVisit } from '../unit-on-visit';

/** "Within days", as a day on the list of where to go back to. Judgement. */
const DAYS_SOON = 3;

/** Work that a finding calls for becomes a job; where one of the same cause stands open on the unit, that one goes on. */
export const followUpAdd: Handler<'follow_up.add'> = async (ctx, entry) => {
  const { db, visit, at, actor } = ctx;
  const unit = await unitOnVisit(ctx, entry.payload.unitId);
  const { unitId, what, note, urgency: said } = entry.payload;
  const twin = await twinOf(ctx, entry.kind, entry.payload, (id) => stillWanted(ctx, id));
  if (twin) return ctx.same(twin);
  if (said === 'now') ctx.chore(`${unit.name} stays off until somebody has worked on it: ${what}. Ring the kitchen.`);
  const soon = soonOf(said);
  const days = said === 'now' ? 0 : said === 'soon' ? DAYS_SOON : null;
  const dueOn = days === null ? null : fromLocalDate(addDays(todayIn(visit.timeZone, at.getTime()), days));
  const cause = causeOfWords(what);
  const standing = cause
    ? await db.job.findFirst({ where: { cause, closedAt: null, units: { some: { unitId } } }, orderBy: { createdAt: 'asc' } })
    : null;
  if (!standing) {
    const job = {
      id: entry.id,
      kitchenId: visit.kitchenId,
      unitIds: [unitId],
      source: 'finding' as const,
      what,
      note,
      cause,
      dueOn,
      ...soon,
    };
    await openJobs(db, [{ ...job, foundVisitId: visit.id }], { by: actor.userId, at });
    return;
  }
  await db.jobEvent.create({
    data: { id: entry.id, jobId: standing.id, at, kind: 'found_again', reason: what, visitId: visit.id, byUserId: actor.userId },
  });
  // What was found again is as urgent as the more urgent of the two.
  const sooner = JOB_URGENCIES.indexOf(soon.urgency) < JOB_URGENCIES.indexOf(standing.urgency);
  await db.job.update({
    where: { id: standing.id },
    data: {
      what,
      needsQuote: standing.needsQuote || soon.needsQuote,
      ...(sooner ? { urgency: soon.urgency, dueOn } : {}),
      version: { increment: 1 },
    },
  });
};

/** The job it opened, or its mark on an older one, is there and was not taken back. */
async function stillWanted({ db, visit }: ApplyContext, id: string): Promise<boolean> {
  if ((await db.job.count({ where: { id, foundVisitId: visit.id } })) > 0) return true;
  const marks = await db.jobEvent.count({ where: { id, visitId: visit.id, kind: 'found_again' } });
  return marks > 0 && (await db.jobEvent.count({ where: { aboutId: id, kind: 'taken_back' } })) === 0;
}

/** Takes a wish back: the job that it opened goes, as long as nobody has done anything about it; the mark on an older one is struck. */
export async function takeBackWanted({ db, visit, at, actor }: ApplyContext, entryId: string): Promise<number> {
  const { count } = await db.job.deleteMany({
    where: { id: entryId, foundVisitId: visit.id, state: 'asked', events: { every: { kind: 'opened' } }, quotes: { none: {} } },
  });
  if (count > 0) return count;
  const mark = await db.jobEvent.findFirst({ where: { id: entryId, visitId: visit.id, kind: 'found_again' } });
  if (!mark) return 0;
  await db.jobEvent.create({
    data: {
      jobId: mark.jobId,
      at,
      kind: 'taken_back',
      aboutId: mark.id,
      reason: 'Entered by mistake',
      visitId: visit.id,
      byUserId: actor.userId,
    },
  });
  return 1;
}
