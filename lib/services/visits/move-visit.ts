import 'server-only';
import type { Actor } from '../../core/access';
import { AppError } from '../../core/errors';
import type { Db } from '../../data/client';
import { composeVisitMessage } from '../mail/compose-visit-message';
import { refusedBy } from '../../data/constraints';
import type { MoveVisit } from '../../schemas/visits';
import { checkedSlot, overlapError } from './slot';
import { staleVisitError } from './stale';

/**
 * Moves a booked visit to another time or technician, keeping why and from where.
 * @throws AppError not_found | conflict | invalid | overlap
 */
export async function moveVisit({ db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string }, input: MoveVisit): Promise<void> {
  const visit = await db.visit.findUnique({ where: { id: input.visitId }, include: { tasks: { include: { task: { include: { unit: true } } } } } });
  if (!visit) throw new AppError('not_found', 'That visit is not on file.');
  if (visit.status !== 'booked') throw new AppError('conflict', `A visit that is ${visit.status} cannot be moved.`);
  const { startsAt, endsAt } = await checkedSlot(db, visit.kitchenId, input, visit.tasks.map((t) => t.task.unit), input.anyway);
  const from = { startsAt: visit.startsAt, endsAt: visit.endsAt, technicianId: visit.technicianId };
  try {
    await db.$transaction(async (tx) => {
      const { count } = await tx.visit.updateMany({
        where: { id: visit.id, version: input.version, status: 'booked' },
        data: { technicianId: input.technicianId, startsAt, endsAt, version: { increment: 1 }, sequence: { increment: 1 }, customerReply: '' },
      });
      if (count === 0) throw await staleVisitError(tx, visit.id);
      await tx.visitEvent.create({
        data: { visitId: visit.id, kind: 'moved', at: now, reason: input.reason, byUserId: actor.userId, detail: { from, to: { startsAt, endsAt, technicianId: input.technicianId } } },
      });
      await composeVisitMessage(tx, visit.id, 'moved', { now, baseUrl });
    });
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap') throw await overlapError(db, input.technicianId, startsAt, endsAt, visit.id);
    throw e;
  }
}
