import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { GiveVisit } from '../../../schemas/visits/visits';
import { checkedSpan, overlapError } from './slot';
import { staleVisitError } from './stale';

/**
 * Gives a started visit to someone else, with a reason. Its time stays: whoever had it was there then.
 * @throws AppError not_found | conflict | invalid | overlap
 */
export async function giveVisit(
  { db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date },
  { visitId, version, technicianId, reason }: GiveVisit,
): Promise<void> {
  const visit = await db.visit.findUnique({
    where: { id: visitId },
    include: { technician: { select: { name: true } }, tasks: { include: { task: { include: { unit: true } } } } },
  });
  if (!visit) throw new AppError('not_found', 'That visit is not on file.');
  if (visit.status === 'booked') throw new AppError('conflict', 'Nobody has started this visit. Move it instead.');
  if (visit.status !== 'started') throw new AppError('conflict', `A visit that is ${visit.status} cannot be given to someone else.`);
  if (visit.technicianId === technicianId)
    throw new AppError('invalid', `${visit.technician.name} has it already. Choose someone else.`, 'technicianId');
  const span = { start: visit.startsAt.getTime(), end: visit.endsAt.getTime() };
  const units = visit.tasks.map((t) => t.task.unit);
  await checkedSpan(db, visit.kitchenId, technicianId, span, units, { now, anyway: true });
  try {
    await db.$transaction(async (tx) => {
      const { count } = await tx.visit.updateMany({
        where: { id: visitId, version, status: 'started' },
        data: { technicianId, version: { increment: 1 }, sequence: { increment: 1 } },
      });
      if (count === 0) throw await staleVisitError(tx, visitId);
      const detail = STORED_VISIT_EVENT.write({ from: { technicianId: visit.technicianId }, to: { technicianId } });
      await tx.visitEvent.create({ data: { visitId, kind: 'reassigned', at: now, reason, byUserId: actor.userId, detail } });
    });
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap')
      throw await overlapError(
        db,
        technicianId,
        visit.startsAt,
        visit.endsAt,
        visitId,
        'Choose someone else, or cancel this visit and book its tasks again.',
        'technicianId',
      );
    throw e;
  }
}
