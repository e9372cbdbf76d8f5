import 'server-only';
import { now } from '../server/clock';
import { db } from '../server/db';
import { env } from '../server/env';
import { queue } from '../server/queue';
import { shopTimeZone } from '../features/shop/reads/shop';
import { drainOutbox } from '../features/mail/verbs/drain-outbox';
import { runPlan } from '../features/planning/verbs/run-plan';
import { refitFleet } from '../features/intervals/verbs/refit-fleet';
import { searchOnThread } from './search-on-thread';

/** Starts the workers of this process, once, when the server boots. */
export async function startJobs(): Promise<void> {
  const boss = await queue();
  const mail = () => drainOutbox({ db: db(), now: now() }, { smtpUrl: env().SMTP_URL, from: env().MAIL_FROM });
  await boss.work('mail', { pollingIntervalSeconds: 1 }, async () => void (await mail()));
  // What a nudge missed, or a failed try left, goes out within the minute.
  await boss.schedule('mail', '* * * * *');

  // What the fleet has taught is learned anew once a week, in the night: it keeps one core busy for some seconds.
  await boss.work('refit', { pollingIntervalSeconds: 60 }, async () => void (await refitFleet({ db: db(), now: now() })));
  await boss.schedule('refit', '30 3 * * 0', {}, { tz: await shopTimeZone(db()) });

  // A run left over from a server that stopped is no longer searching.
  await db().planRun.updateMany({ where: { status: { in: ['queued', 'running'] } }, data: { status: 'cancelled' } });
  const clock = () => performance.now();
  await boss.work<{ runId: string }>('plan', { pollingIntervalSeconds: 0.5 }, async (jobs) => {
    for (const job of jobs) await runPlan({ db: db(), now: now() }, job.data.runId, searchOnThread, clock);
  });
}
