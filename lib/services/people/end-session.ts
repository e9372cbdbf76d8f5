import 'server-only';
import { writeAudit } from '../../data/audit';
import { revokeSessions } from '../../data/sessions';
import { withinTransaction } from '../../data/transaction';
import type { EndSession } from '../../schemas/people';
import type { ServiceContext } from '../context';

/** Ends one session of a person, or all of them. @returns how many ended */
export function endSession({ db, actor, now }: ServiceContext, { userId, sessionId }: EndSession): Promise<number> {
  return withinTransaction(db, async (tx) => {
    const { count } = await revokeSessions(tx, { userId, id: sessionId }, now);
    if (count > 0) await writeAudit(tx, { at: now, userId: actor?.userId ?? null, action: 'session.ended', entity: 'User', entityId: userId, detail: { sessions: count } });
    return count;
  });
}
