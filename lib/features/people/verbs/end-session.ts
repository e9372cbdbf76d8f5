import 'server-only';
import type { Actor } from '../../../core/people/access';
import { writeAudit } from '../../audit/verbs/write-audit';
import { revokeSessions } from './sessions';
import { withinTransaction } from '../../../database/transaction';
import type { EndSession } from '../../../schemas/people/people';
import type { ServiceContext } from '../../context';

type Context = Omit<ServiceContext, 'actor'> & { actor: Pick<Actor, 'userId' | 'sessionId'> };

/** Ends one session of a person, or all of them; of one's own all but the one in hand. @returns how many ended */
export function endSession({ db, actor, now }: Context, { userId, sessionId }: EndSession): Promise<number> {
  const rest = userId === actor.userId ? { not: actor.sessionId } : undefined;
  return withinTransaction(db, async (tx) => {
    const { count } = await revokeSessions(tx, { userId, id: sessionId ?? rest }, now);
    if (count > 0)
      await writeAudit(tx, {
        at: now,
        userId: actor.userId,
        action: 'session.ended',
        entity: 'User',
        entityId: userId,
        detail: { sessions: count },
      });
    return count;
  });
}
