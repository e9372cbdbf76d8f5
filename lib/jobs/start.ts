import 'server-only';
import { now } from '../server/clock';
import { db } from '../server/db';
import { env } from '../server/env';
import { queue } from '../server/queue';
import { drainOutbox } from '../services/mail/drain-outbox';

/** Starts the workers of this process, once, when the server boots. */
export async function startJobs(): Promise<void> {
  const boss = await queue();
  const mail = () => drainOutbox({ db: db(), now: now() }, { smtpUrl: env().SMTP_URL, from: env().MAIL_FROM });
  await boss.work('mail', { pollingIntervalSeconds: 1 }, async () => void (await mail()));
  // What a nudge missed, or a failed try left, goes out within the minute.
  await boss.schedule('mail', '* * * * *');
}
