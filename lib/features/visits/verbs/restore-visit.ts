import 'server-only';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { RestoreVisit } from '../../../schemas/visits/visits';
import { composeVisitMessage } from '../../mail/verbs/compose-visit-message';
import { pastWords } from './past';
import { overlapError } from './slot';
import { staleVisitError } from './stale';

/**
 * Books a cancelled visit again as it was, and tells the kitchen. Tasks that stand on another visit by now, or are no
 * longer on file, stay out; @returns how many. @throws AppError not_found | conflict | overlap
 */
export async function restoreVisit(
  { db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
  { visitId, version }: RestoreVisit,
): Promise<number> {
  const visit = await db.visit.findUnique({
    where: { id: visitId },
    include: {
      kitchen: { select: { timeZone: true, archivedAt: true } },
      technician: { select: { name: true, active: true } },
      tasks: true,
    },
  });
  if (!visit) throw new AppError('not_found', 'That visit is not on file.');
  if (visit.status !== 'cancelled') throw new AppError('conflict', 'That visit is not cancelled any more. Open it again.');
  const past = pastWords(visit.startsAt.getTime(), visit.kitchen.timeZone, now);
  if (past) throw new AppError('conflict', `${past}: book its tasks anew.`);
  if (visit.arrivedAt) throw new AppError('conflict', 'Work was written on it before it was cancelled. Book its tasks anew.');
  if (!visit.technician.active) throw new AppError('conflict', `${visit.technician.name} no longer does visits. Book its tasks anew.`);
  if (visit.kitchen.archivedAt) throw new AppError('conflict', 'The kitchen is out of use by now.');
  try {
    return await db.$transaction(async (tx) => {
      const free = await tx.task.findMany({
        where: {
          id: { in: visit.tasks.map((t) => t.taskId) },
          active: true,
          unit: { archivedAt: null },
          visitTasks: { none: { open: true } },
        },
        select: { id: true },
      });
      const ids = new Set(free.map((t) => t.id));
      const lost = visit.tasks.filter((t) => !ids.has(t.taskId));
      if (lost.length > 0 && ids.size === 0) throw new AppError('conflict', 'All of its tasks stand on other visits by now.');
      const { count } = await tx.visit.updateMany({
        where: { id: visit.id, version, status: 'cancelled' },
        data: { status: 'booked', cancelReason: '', customerReply: null, version: { increment: 1 }, sequence: { increment: 1 } },
      });
      if (count === 0) throw await staleVisitError(tx, visit.id);
      await tx.visitTask.deleteMany({ where: { id: { in: lost.map((t) => t.id) } } });
      await tx.visitTask.updateMany({ where: { visitId: visit.id }, data: { open: true } });
      await tx.visitEvent.create({ data: { visitId: visit.id, kind: 'restored', at: now, byUserId: actor.userId } });
      await composeVisitMessage(tx, visit.id, 'booked', { now, baseUrl });
      return lost.length;
    });
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap')
      throw await overlapError(db, visit.technicianId, visit.startsAt, visit.endsAt, visit.id, 'Book its tasks anew for another time.', '');
    throw e;
  }
}
