import 'server-only';
import type { Actor } from '../../../core/people/access';
import { todayIn, clockIn } from '../../../core/calendar';
import { AppError, isAppError } from '../../../core/errors';
import type { AcceptPlan } from '../../../schemas/visits/planning';
import { STORED_BOOKED, STORED_PROPOSAL } from '../../../database/stored/planning';
import type { Db } from '../../../database/client';
import { bookVisit } from '../../visits/verbs/book-visit';
import { cancelVisit } from '../../visits/verbs/cancel-visit';
import { pastWords } from '../../visits/verbs/past';

type Ctx = { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string };
export type Accepted = { booked: { key: string; visitId: string }[]; refused: { key: string; message: string }[] };

/**
 * Books the chosen visits of a finished proposal, each on its own: one that meanwhile overlaps is refused with the
 * reason and the others stand, and so is one whose time has gone by while the proposal waited. @throws AppError conflict when the proposal is not there to accept
 */
export async function acceptPlan(ctx: Ctx, input: AcceptPlan): Promise<Accepted> {
  const run = await ctx.db.planRun.findUnique({ where: { id: input.runId } });
  if (!run || run.status !== 'done' || !run.result)
    throw new AppError('conflict', 'This proposal is no longer open. Propose the week again.');
  const proposal = STORED_PROPOSAL.read(run.result);
  const out: Accepted = { booked: [], refused: [] };
  const chosen = new Map(input.visits.map((v) => [v.key, v]));
  const changed = proposal.visits.flatMap((p) => {
    const own = chosen.get(p.key);
    const startMs = own?.startMs ?? p.startMs;
    return own
      ? [{ ...p, startMs, endMs: startMs + p.endMs - p.startMs, technicianId: own.technicianId ?? p.technicianId, fixed: own.fixed }]
      : [];
  });
  for (const v of changed) {
    const past = pastWords(v.startMs, v.timeZone, ctx.now);
    if (past) {
      out.refused.push({ key: v.key, message: `${past} by now, so ${v.kitchen} was not booked. Propose the week again.` });
      continue;
    }
    try {
      const { visitId } = await bookVisit(ctx, {
        kitchenId: v.kitchenId,
        technicianId: v.technicianId,
        date: todayIn(v.timeZone, v.startMs),
        from: clockIn(v.timeZone, v.startMs),
        minutes: Math.round((v.endMs - v.startMs) / 60_000),
        taskIds: v.taskIds,
        note: '',
        fixed: v.fixed,
        anyway: true,
      });
      out.booked.push({ key: v.key, visitId });
    } catch (e) {
      if (!isAppError(e)) throw e;
      out.refused.push({ key: v.key, message: e.message });
    }
  }
  await ctx.db.planRun.update({
    where: { id: run.id },
    data: { status: 'accepted', params: STORED_BOOKED.write({ booked: out.booked.map((b) => b.visitId) }), finishedAt: ctx.now },
  });
  return out;
}

/** Takes back what a proposal booked, except visits that somebody changed since. Returns how many were taken back. */
export async function undoPlan(ctx: Ctx, runId: string): Promise<number> {
  const run = await ctx.db.planRun.findUnique({ where: { id: runId } });
  const ids = (run && STORED_BOOKED.read(run.params).booked) ?? [];
  let undone = 0;
  for (const visitId of ids) {
    try {
      await cancelVisit(ctx, { visitId, version: 1, reason: 'The time is planned anew, and a new one follows' });
      undone++;
    } catch (e) {
      if (!isAppError(e)) throw e;
    }
  }
  await ctx.db.planRun.updateMany({
    where: { id: runId, status: 'accepted' },
    data: { status: 'undone', params: STORED_BOOKED.write({}) },
  });
  return undone;
}
