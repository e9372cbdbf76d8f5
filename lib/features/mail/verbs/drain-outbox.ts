import 'server-only';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { overtakenBy } from './overtaken';
import { mailer, type Letter, type Mailer } from './smtp';

export type MailSettings = { smtpUrl?: string; from: string };
const MAX_ATTEMPTS = 6;
/** Longer than any talk with a mail server lasts: whoever claimed a message before that is gone. */
const CLAIM_MS = 15 * 60_000;
const NOT_KNOWN = 'The mail server did not say whether it took the message.';

/**
 * Sends what waits in the outbox, one at a time. Each is claimed first and sent outside any transaction: a message goes
 * out at most once after the server was handed it, however late it answers and whoever dies meanwhile. What may or may
 * not have gone is marked 'unknown' and left to a person. One that no longer holds is not sent. Without a mail server
 * the messages are held and shown on the outbox page. Returns how many went out.
 */
export async function drainOutbox({ db, now }: { db: Db; now: Date }, mail: MailSettings): Promise<number> {
  await db.outboxMessage.updateMany({
    where: { status: 'sending', claimedAt: { lt: new Date(now.getTime() - CLAIM_MS) } },
    data: { status: 'unknown', error: 'Rimebook stopped while it was being sent.' },
  });
  if (!mail.smtpUrl) {
    await db.outboxMessage.updateMany({ where: { status: 'queued' }, data: { status: 'held', error: 'No mail server is set.' } });
    return 0;
  }
  await db.outboxMessage.updateMany({ where: { status: 'held' }, data: { status: 'queued', error: '' } });
  const server = mailer(mail.smtpUrl, mail.from);
  // One that fails must not hold up those behind it: it is left out until the next drain.
  const done: string[] = [];
  let sent = 0;
  try {
    for (let claim = await claimNext(db, now, done); claim; claim = await claimNext(db, now, done)) {
      done.push(claim.id);
      if (claim.letter && (await deliver(db, server, claim.letter, now))) sent++;
    }
  } finally {
    server.close();
  }
  return sent;
}

/** Of a link to choose a password nothing is kept once it is sent. */
type Claimed = Letter & { attempts: number; kind: string };

/** Takes the next message that still holds. A letter of null: it was overtaken, and is not sent. */
function claimNext(db: Db, now: Date, leaveOut: string[]): Promise<{ id: string; letter: Claimed | null } | null> {
  return withinTransaction(db, async (tx) => {
    const [row] = await tx.$queryRaw<{ id: string }[]>`
      SELECT id FROM "OutboxMessage" WHERE status = 'queued' AND NOT (id = ANY(${leaveOut}::uuid[])) ORDER BY "createdAt" LIMIT 1 FOR UPDATE SKIP LOCKED`;
    if (!row) return null;
    const m = await tx.outboxMessage.findUniqueOrThrow({ where: { id: row.id } });
    const overtaken = await overtakenBy(tx, m, now);
    const data = overtaken ? ({ status: 'overtaken', error: overtaken } as const) : ({ status: 'sending', claimedAt: now } as const);
    await tx.outboxMessage.update({ where: { id: m.id }, data });
    return { id: m.id, letter: overtaken ? null : m };
  });
}

/** Hands a claimed message to the server and writes down what came of it. @returns whether it went out */
async function deliver(db: Db, server: Mailer, m: Claimed, now: Date): Promise<boolean> {
  const result = await server.send(m);
  const attempts = m.attempts + 1;
  const data =
    result.is === 'sent'
      ? ({ status: 'sent', sentAt: now, error: '', ...(m.kind === 'password_link' ? { text: '' } : {}) } as const)
      : result.is === 'unknown'
        ? ({ status: 'unknown', error: `${NOT_KNOWN} (${result.said})` } as const)
        : ({ status: attempts >= MAX_ATTEMPTS ? 'failed' : 'queued', error: result.said } as const);
  // A claim that ran out meanwhile still hears that its message arrived; a person's decision stands.
  await db.outboxMessage.updateMany({ where: { id: m.id, status: { in: ['sending', 'unknown'] } }, data: { ...data, attempts } });
  return result.is === 'sent';
}
