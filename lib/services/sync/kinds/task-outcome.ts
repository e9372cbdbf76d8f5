import 'server-only';
import { AppError } from '../../../core/errors';
import type { ApplyContext, Handler } from '../context';

type Answer = { taskId: string; outcome: 'done' | 'not_done'; reason: string };

export const taskDone: Handler<'task.done'> = (ctx, op) => answer(ctx, op.id, { ...op.payload, outcome: 'done', reason: '' });
export const taskNotDone: Handler<'task.not_done'> = (ctx, op) => answer(ctx, op.id, { ...op.payload, outcome: 'not_done' });

/** The task's outcome on this visit. Work done on a task the office took off the visit meanwhile still counts if it can. */
async function answer(ctx: ApplyContext, id: string, { taskId, outcome, reason }: Answer): Promise<void> {
  const { db, visit, at } = ctx;
  const standing = await db.visitTask.findUnique({ where: { visitId_taskId: { visitId: visit.id, taskId } } });
  if (standing) {
    if (standing.answeredAt && standing.answeredAt > at) {
      if (standing.outcome !== outcome) ctx.note('This task was answered twice; the later answer stands.');
      return;
    }
    await db.visitTask.update({ where: { id: standing.id }, data: { outcome, reason, answeredAt: at } });
    return;
  }
  const task = await db.task.findUnique({ where: { id: taskId }, include: { kind: true, unit: true, visitTasks: { where: { open: true } } } });
  if (!task) throw new AppError('not_found', 'That task is no longer on file.');
  if (task.kitchenId !== visit.kitchenId) throw new AppError('invalid', 'That task belongs to another kitchen.');
  const what = `${task.kind.label} of ${task.unit.name}`;
  if (outcome === 'not_done') return ctx.note(`${what} was taken off this visit by the office; it was not done either.`);
  if (task.visitTasks.length > 0) return ctx.note(`${what} was moved to another visit by the office, and was done on this one. Cancel it there, or have it done again.`);
  await db.visitTask.create({ data: { id, visitId: visit.id, taskId, unitId: task.unitId, outcome, reason, answeredAt: at, open: visit.status === 'booked' || visit.status === 'started' } });
  ctx.note(`${what} was taken off this visit by the office but was done; it counts.`);
}
