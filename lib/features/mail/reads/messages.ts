import 'server-only';
import type { Tx } from '../../../database/client';

const NOT_SHOWN = 'A link to choose a password: not shown, for it opens the sign-in of whoever it is sent to.';

/** Messages, newest first. What would open somebody's sign-in stays in the outbox. */
export async function recentMessages(db: Tx, most = 100) {
  const messages = await db.outboxMessage.findMany({ orderBy: { createdAt: 'desc' }, take: most });
  return messages.map((m) => (m.kind === 'password_link' ? { ...m, text: NOT_SHOWN } : m));
}
