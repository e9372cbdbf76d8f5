import 'server-only';
import { AppError } from '../../../../core/errors';
import { aspectWords, ungradedCoil, unlookedFor } from '../../../../core/tasks';
import { markDone } from '../../../visits/verbs/mark-done';
import { cameMeanwhile } from '../came-meanwhile';
import { standsOver, type ApplyContext, type Handler } from '../context';

type Answer = { taskId: string; outcome: 'done' | 'not_done'; reason: string };

export const taskDone: Handler<'task.done'> = (ctx, entry) => answer(ctx, entry.id, { ...entry.payload, outcome: 'done', reason: '' });
export const taskNotDone: Handler<'task.not_done'> = (ctx, entry) => answer(ctx, entry.id, { ...entry.payload, outcome: 'not_done' });

const OUTCOME_LABEL = { planned: 'not answered', done: 'done', not_done: 'not done' } as const;
const outcomeWords = ({ outcome, reason }: { outcome: keyof typeof OUTCOME_LABEL; reason: string }) =>
  reason ? `${OUTCOME_LABEL[outcome]} (${reason})` : OUTCOME_LABEL[outcome];

/** The task's outcome on this visit. Work done on a task the office took off the visit meanwhile still counts if it can. */
async function answer(ctx: ApplyContext, id: string, given: Answer): Promise<void> {
  const standing = await standingOf(ctx, given.taskId);
  return standing ? answerPlanned(ctx, id, given, standing) : answerTakenOff(ctx, id, given);
}

const standingOf = ({ db, visit }: ApplyContext, taskId: string) =>
  db.visitTask.findUnique({
    where: { visitId_taskId: { visitId: visit.id, taskId } },
    include: { task: { select: { kindKey: true, kind: { select: { label: true } }, unit: { select: { name: true } } } } },
  });
type Standing = NonNullable<Awaited<ReturnType<typeof standingOf>>>;

async function answerPlanned(ctx: ApplyContext, id: string, given: Answer, standing: Standing): Promise<void> {
  const { db, visit, at, deviceId } = ctx;
  const { taskId, outcome, reason } = given;
  const before = standing.answeredAt ? { at: standing.answeredAt, deviceId: standing.deviceId } : null;
  const wins = !before || standsOver(ctx, id, before);
  if (before) await compare(ctx, given, standing, wins);
  if (!wins) return;
  if (visit.status === 'done' && standing.outcome !== outcome)
    await afterClosing(ctx, { taskId, unitId: standing.unitId, kindKey: standing.task.kindKey, outcome });
  await db.visitTask.update({ where: { id: standing.id }, data: { outcome, reason, answeredAt: at, deviceId } });
}

/** Says so where two tablets answered, alike or not. */
async function compare(ctx: ApplyContext, given: Answer, standing: Standing, wins: boolean): Promise<void> {
  if (standing.outcome === given.outcome && standing.reason === given.reason) return ctx.same();
  if (standing.deviceId === ctx.deviceId) return;
  if (!(await cameMeanwhile(ctx, ['task.done', 'task.not_done'], { taskId: given.taskId }))) return;
  const what = `${standing.task.kind.label.toLowerCase()} of ${standing.task.unit.name}`;
  ctx.note(
    `Two tablets differ on ${what}: ${outcomeWords(standing)} and ${outcomeWords(given)}. The later stands: ${outcomeWords(wins ? given : standing)}.`,
  );
}

/** @throws AppError not_found | invalid */
async function answerTakenOff(ctx: ApplyContext, id: string, { taskId, outcome, reason }: Answer): Promise<void> {
  const { db, visit, at, deviceId } = ctx;
  const task = await db.task.findUnique({
    where: { id: taskId },
    include: { kind: true, unit: true, visitTasks: { where: { open: true } } },
  });
  if (!task) throw new AppError('not_found', 'That task is no longer on file.');
  if (task.kitchenId !== visit.kitchenId) throw new AppError('invalid', 'That task belongs to another kitchen.');
  const what = `${task.kind.label} of ${task.unit.name}`;
  if (outcome === 'not_done') return ctx.chore(`${what} was taken off this visit by the office; it was not done either.`);
  if (task.visitTasks.length > 0)
    return ctx.chore(`${what} was moved to another visit by the office, and was done on this one. Cancel it there, or have it done again.`);
  if (visit.status === 'done') await afterClosing(ctx, { taskId, unitId: task.unitId, kindKey: task.kindKey, outcome });
  const open = visit.status === 'booked' || visit.status === 'started';
  await db.visitTask.create({
    data: { id, visitId: visit.id, taskId, unitId: task.unitId, outcome, reason, answeredAt: at, deviceId, open },
  });
  ctx.chore(`${what} was taken off this visit by the office but was done; it counts.`);
}

/**
 * An answer to a task of a visit that is closed already does what the closing would have done, and asks what it would have asked.
 * @throws AppError low_side
 */
async function afterClosing(
  { db, visit, at, note, actor, now }: ApplyContext,
  task: { taskId: string; unitId: string; kindKey: string; outcome: 'done' | 'not_done' },
): Promise<void> {
  if (task.outcome === 'not_done') return note('It counted as done when the visit was closed; its dates still say so.');
  const findings = await db.finding.findMany({
    where: { visitId: visit.id, unitId: task.unitId, supersededAt: null },
    select: { unitId: true, aspect: true, phase: true, grade: true },
  });
  const unit = await db.unit.findUniqueOrThrow({ where: { id: task.unitId }, select: { kind: true, condenserKind: true } });
  const unlooked = unlookedFor(task, unit, findings);
  const lacks = [...(unlooked.length > 0 ? [aspectWords(unlooked)] : []), ...ungradedCoil(task, unit, findings)];
  if (lacks.length > 0)
    throw new AppError(
      'low_side',
      `It was said to be done after the visit was closed, but not everything was looked at: ${lacks.join(', ')}. It does not count.`,
    );
  await markDone(db, [task.taskId], visit.timeZone, visit.leftAt ?? at, { visitId: visit.id, by: actor.userId, now });
}
