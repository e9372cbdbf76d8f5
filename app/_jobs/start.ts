import { now } from '@/lib/server/clock';
import { db } from '@/lib/server/db';
import { env } from '@/lib/server/env';
import { queue } from '@/lib/server/queue';
import { drainOutbox } from '@/lib/services/mail/drain-outbox';

/** Starts the workers of this process, once, when the server boots. */
export async function startJobs(): Promise<void> {
  const boss = await queue();
  const mail = () => drainOutbox({ db: db(), now: now() }, { smtpUrl: env().SMTP_URL, from: env().MAIL_FROM });
  await boss.work('mail', { pollingIntervalSeconds: 1 }, async () => void (await mail()));
  // What a nudge missed, or a failed try left, goes out within the minute.
  await boss.schedule('mail', '* * * * *');
}
