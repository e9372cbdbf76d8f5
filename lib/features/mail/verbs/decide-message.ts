import 'server-only';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { withinTransaction } from '../../../database/transaction';
import type { DecideMessage } from '../../../schemas/shop/messages';
import type { ServiceContext } from '../../context';

/**
 * What a person decides about a message of which nobody knows whether it arrived, or which did not: send it again, or
 * leave it. @throws AppError conflict — it is neither any more
 */
export function decideMessage({ db, actor, now }: ServiceContext, { messageId, decision }: DecideMessage): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const { count } = await tx.outboxMessage.updateMany({
      where: { id: messageId, status: { in: ['unknown', 'failed'] } },
      data: decision === 'again' ? { status: 'queued', attempts: 0, error: '', claimedAt: null } : { status: 'left' },
    });
    if (count === 0) throw new AppError('conflict', 'Somebody has decided on this message already. Open the outbox again.');
    const action = decision === 'again' ? 'message.sent_again' : 'message.left';
    await auditBy(tx, { actor, now }, { action, entity: 'OutboxMessage', entityId: messageId });
  });
}
