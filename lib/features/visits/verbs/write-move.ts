import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import type { Actor } from '../../../core/people/access';
import type { Tx } from '../../../database/client';
import { composeVisitMessage } from '../../mail/verbs/compose-visit-message';
import { staleVisitError } from './stale';

type Stand = { startsAt: Date; endsAt: Date; technicianId: string };
const stood = ({ startsAt, endsAt, technicianId }: Stand) => ({
  startsAt: startsAt.toISOString(),
  endsAt: endsAt.toISOString(),
  technicianId,
});
export type MoveToWrite = { visitId: string; version: number; from: Stand; to: Stand; reason: string };

/**
 * Writes a move that was checked: the visit, its history and the message to the kitchen, inside the caller's transaction.
 * @throws AppError conflict when somebody changed the visit since `version`
 */
export async function writeMove(
  tx: Tx,
  { visitId, version, from, to, reason }: MoveToWrite,
  at: { actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
): Promise<void> {
  const { count } = await tx.visit.updateMany({
    where: { id: visitId, version, status: 'booked' },
    data: { ...to, version: { increment: 1 }, sequence: { increment: 1 }, customerReply: null },
  });
  if (count === 0) throw await staleVisitError(tx, visitId);
  await tx.visitEvent.create({
    data: {
      visitId,
      kind: 'moved',
      at: at.now,
      reason,
      byUserId: at.actor.userId,
      detail: STORED_VISIT_EVENT.write({ from: stood(from), to: stood(to) }),
    },
  });
  await composeVisitMessage(tx, visitId, 'moved', at);
}
