import 'server-only';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import type { CancelVisit } from '../../../schemas/visits/visits';
import { composeVisitMessage } from '../../mail/verbs/compose-visit-message';
import { leaveVisit } from '../../jobs/verbs/after-visit';
import { staleVisitError } from './stale';

/**
 * Cancels a visit that is not closed, with a reason; its tasks are free to book again. What a tablet already wrote on a
 * started one is kept. The kitchen is told unless the time is over.
 * @throws AppError not_found | conflict
 */
export async function cancelVisit(
  { db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
  input: CancelVisit,
): Promise<void> {
  await db.$transaction(async (tx) => {
    const { count } = await tx.visit.updateMany({
      where: { id: input.visitId, version: input.version, status: { in: ['booked', 'started'] } },
      data: { status: 'cancelled', cancelReason: input.reason, version: { increment: 1 }, sequence: { increment: 1 } },
    });
    if (count === 0) {
      const visit = await tx.visit.findUnique({ where: { id: input.visitId } });
      if (!visit) throw new AppError('not_found', 'That visit is not on file.');
      if (visit.status === 'done' || visit.status === 'cancelled')
        throw new AppError('conflict', `A visit that is ${visit.status} cannot be cancelled.`);
      throw await staleVisitError(tx, input.visitId);
    }
    await tx.visitTask.updateMany({ where: { visitId: input.visitId }, data: { open: false } });
    await tx.visitEvent.create({
      data: { visitId: input.visitId, kind: 'cancelled', at: now, reason: input.reason, byUserId: actor.userId },
    });
    await leaveVisit(tx, 'cancelled', { visitId: input.visitId, by: actor.userId, at: now });
    const { endsAt } = await tx.visit.findUniqueOrThrow({ where: { id: input.visitId }, select: { endsAt: true } });
    if (endsAt > now) await composeVisitMessage(tx, input.visitId, 'cancelled', { now, baseUrl });
  });
}
