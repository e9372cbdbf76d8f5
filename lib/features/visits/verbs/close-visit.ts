import 'server-only';
import { AppError } from '../../../core/errors';
import { missingToClose, type VisitOnFile, type VisitTaskOnFile } from '../../../core/tablet';
import { ungradedCoil } from '../../../core/tasks';
import type { Tx } from '../../../database/client';
import { visitsOnFile } from '../../tablet/reads/visits-on-file';
import { withinTransaction } from '../../../database/transaction';
import type { ServiceContext } from '../../context';
import { applyOutcomes } from '../../jobs/verbs/apply-outcomes';
import { leaveVisit } from '../../jobs/verbs/after-visit';
import { markDone } from './mark-done';
import { takeConsequences } from './take-consequences';

export type CloseVisit = {
  visitId: string;
  leftAt: Date;
  /** Tasks that whoever closes knew of; one the office added meanwhile goes back to the due list. */
  knownTaskIds: readonly string[];
};

const ADDED_LATER = 'Added by the office after the tablet last heard from it.';

/**
 * Closes a visit once every task is answered, the low side of each cleaned coil was looked at, and someone signed or
 * nobody was there. A cleaning without its coil's grades does not count. Then the estimates are stored and the rules revised.
 * @throws AppError not_found | conflict | low_side | invalid
 */
export async function closeVisit(ctx: ServiceContext, input: CloseVisit): Promise<{ notes: string[] }> {
  return withinTransaction(ctx.db, async (db) => {
    const [found] = await visitsOnFile(db, [input.visitId], null);
    if (!found) throw new AppError('not_found', 'That visit is not on file.');
    if (found.status === 'done' || found.status === 'cancelled') throw new AppError('conflict', `The visit is ${found.status} already.`);
    const { visit: visitOnFile, notes } = await putBackUnknown(db, found, input, ctx.now);
    const missing = missingToClose(visitOnFile);
    if (missing.length > 0)
      throw new AppError(missing.some((m) => m.code === 'low_side') ? 'low_side' : 'invalid', missing.map((m) => m.words).join(' '));
    const visit = await leaveUndone(db, visitOnFile, ctx.now, notes);

    await db.visit.update({
      where: { id: visit.id },
      data: { status: 'done', leftAt: input.leftAt, closedAt: ctx.now, version: { increment: 1 } },
    });
    await db.visitTask.updateMany({ where: { visitId: visit.id }, data: { open: false } });
    await markDone(
      db,
      visit.tasks.filter((t) => t.outcome === 'done').map((t) => t.taskId),
      visit.kitchen.timeZone,
      input.leftAt,
      { visitId: visit.id, by: ctx.actor?.userId ?? null, now: ctx.now },
    );
    await db.visitEvent.create({ data: { visitId: visit.id, kind: 'closed', at: ctx.now, byUserId: ctx.actor?.userId } });
    await applyOutcomes(db, visit.id, { by: ctx.actor?.userId ?? null, at: ctx.now });
    const failed = await takeConsequences({ ...ctx, db }, visit.id);
    if (failed) notes.push(failed);
    await leaveVisit(db, 'closed', { visitId: visit.id, by: ctx.actor?.userId ?? null, at: ctx.now });
    return { notes };
  });
}

/** Cleanings said to be done of coils that nobody graded as found and as left, as an older tablet lets them pass: not done. */
async function leaveUndone(db: Tx, visit: VisitOnFile, now: Date, notes: string[]): Promise<VisitOnFile> {
  const reasons = new Map<string, string>();
  for (const t of visit.tasks) {
    const unit = visit.units.find((u) => u.id === t.unitId);
    const lacks = t.outcome === 'done' ? ungradedCoil(t, unit, visit.entries.findings) : [];
    if (lacks.length === 0) continue;
    reasons.set(t.taskId, `Nobody graded ${lacks.join(' and ')}.`);
    notes.push(
      `${unit?.name ?? 'A unit'}: the coil is said to be cleaned, but nobody graded ${lacks.join(' and ')}. It counts as not done and is on the due list again; ask who was there.`,
    );
  }
  for (const [taskId, reason] of reasons)
    await db.visitTask.updateMany({ where: { visitId: visit.id, taskId }, data: { outcome: 'not_done', reason, answeredAt: now } });
  const undone = (t: VisitTaskOnFile): VisitTaskOnFile => {
    const reason = reasons.get(t.taskId);
    return reason === undefined ? t : { ...t, outcome: 'not_done', reason };
  };
  return { ...visit, tasks: visit.tasks.map(undone) };
}

async function putBackUnknown(db: Tx, visit: VisitOnFile, input: CloseVisit, now: Date) {
  const unknown = visit.tasks.filter((t) => t.outcome === 'planned' && !input.knownTaskIds.includes(t.taskId));
  if (unknown.length === 0) return { visit, notes: [] as string[] };
  const ids = unknown.map((t) => t.taskId);
  await db.visitTask.updateMany({
    where: { visitId: visit.id, taskId: { in: ids } },
    data: { outcome: 'not_done', reason: ADDED_LATER, answeredAt: now },
  });
  const tasks = visit.tasks.map((t) => (ids.includes(t.taskId) ? { ...t, outcome: 'not_done' as const, reason: ADDED_LATER } : t));
  return {
    visit: { ...visit, tasks },
    notes: [`${unknown.length} task(s) added while the tablet was away were not done; they are on the due list again.`],
  };
}
