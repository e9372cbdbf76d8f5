import 'server-only';
import { dayIn } from '../../../../core/calendar/when';
import { AppError } from '../../../../core/errors';
import type { Handler } from '../context';
import { unitOnVisit } from '../unit-on-visit';

/**
 * A task that nobody had planned for this visit joins it. Where it stood on a later visit that has not begun, it moves
 * over, and the office hears of it.
 */
export const taskTake: Handler<'task.take'> = async (ctx, entry) => {
  const { db, visit } = ctx;
  const { taskId, unitId } = entry.payload;
  await unitOnVisit(ctx, unitId);
  const task = await db.task.findUnique({
    where: { id: taskId },
    include: {
      kind: true,
      unit: true,
      visitTasks: { where: { open: true }, include: { visit: { select: { id: true, startsAt: true, status: true } } } },
    },
  });
  if (!task || task.unitId !== unitId) throw new AppError('not_found', 'That task is not on file.');
  const onThis = await db.visitTask.findUnique({ where: { visitId_taskId: { visitId: visit.id, taskId } } });
  if (onThis) return ctx.same();
  const [elsewhere] = task.visitTasks;
  const what = `${task.kind.label} of ${task.unit.name}`;
  if (elsewhere && (elsewhere.visit.status !== 'booked' || elsewhere.answeredAt))
    return ctx.chore(`${what} was taken on here, and stands on a visit that has begun as well: see which of the two it was done on.`);
  if (elsewhere) {
    await db.visitTask.delete({ where: { id: elsewhere.id } });
    ctx.chore(
      `${what} was booked for ${dayIn(elsewhere.visit.startsAt.getTime(), visit.timeZone)} and was taken on now; it is off that visit.`,
    );
  }
  await db.visitTask.create({
    data: { id: entry.id, visitId: visit.id, taskId, unitId, open: visit.status === 'booked' || visit.status === 'started' },
  });
};
