import 'server-only';
import { createTransport } from 'nodemailer';
import type { Db } from '../../../database/client';
import { overtakenBy } from './overtaken';

export type MailSettings = { smtpUrl?: string; from: string };
const MAX_ATTEMPTS = 6;

/**
 * Sends what waits in the outbox, one at a time, each row locked while it is sent so that two workers never send it
 * twice. One that no longer holds is not sent. Without a mail server the messages are held and shown on the outbox page. Returns how many went out.
 */
export async function drainOutbox({ db, now }: { db: Db; now: Date }, mail: MailSettings): Promise<number> {
  if (!mail.smtpUrl) {
    await db.outboxMessage.updateMany({ where: { status: 'queued' }, data: { status: 'held', error: 'No mail server is set.' } });
    return 0;
  }
  await db.outboxMessage.updateMany({ where: { status: 'held' }, data: { status: 'queued', error: '' } });
  const transport = createTransport(mail.smtpUrl);
  // One that fails must not hold up those behind it: it is left out until the next drain.
  const failed: string[] = [];
  let sent = 0;
  try {
    for (
      let next = await sendNext(db, transport, mail.from, now, failed);
      next;
      next = await sendNext(db, transport, mail.from, now, failed)
    ) {
      if (next.sent) sent++;
      else failed.push(next.id);
    }
  } finally {
    transport.close();
  }
  return sent;
}

async function sendNext(
  db: Db,
  transport: ReturnType<typeof createTransport>,
  from: string,
  now: Date,
  leaveOut: string[],
): Promise<{ id: string; sent: boolean } | null> {
  return db.$transaction(
    async (tx) => {
      const [row] = await tx.$queryRaw<{ id: string }[]>`
        SELECT id FROM "OutboxMessage" WHERE status = 'queued' AND NOT (id = ANY(${leaveOut}::uuid[])) ORDER BY "createdAt" LIMIT 1 FOR UPDATE SKIP LOCKED`;
      if (!row) return null;
      const m = await tx.outboxMessage.findUniqueOrThrow({ where: { id: row.id } });
      const overtaken = await overtakenBy(tx, m, now);
      if (overtaken) {
        await tx.outboxMessage.update({ where: { id: m.id }, data: { status: 'overtaken', error: overtaken } });
        return { id: m.id, sent: false };
      }
      const attempts = m.attempts + 1;
      try {
        await transport.sendMail({
          from,
          to: m.toEmail,
          subject: m.subject,
          text: m.text,
          // The identity stays the same over tries, so that a receiver can tell a repeat.
          messageId: `<${m.id}@rimebook>`,
          icalEvent: m.ics ? { method: m.icsMethod, content: m.ics, filename: 'visit.ics' } : undefined,
        });
        await tx.outboxMessage.update({ where: { id: m.id }, data: { status: 'sent', sentAt: now, attempts, error: '' } });
        return { id: m.id, sent: true };
      } catch (e) {
        const error = e instanceof Error ? e.message.slice(0, 500) : 'unknown';
        await tx.outboxMessage.update({
          where: { id: m.id },
          data: { attempts, error, status: attempts >= MAX_ATTEMPTS ? 'failed' : 'queued' },
        });
        return { id: m.id, sent: false };
      }
    },
    { timeout: 60_000 },
  );
}
