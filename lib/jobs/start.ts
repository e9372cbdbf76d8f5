import 'server-only';
import { isNight, type Nightly } from '../core/calendar';
import { now } from '../server/process/clock';
import { db } from '../server/process/db';
import { env } from '../server/process/env';
import { setUpCode } from '../server/people/set-up-code';
import { keepFollowingShop } from '../server/process/habits';
import { log } from '../server/process/log';
import { pictures } from '../server/process/pictures';
import { nudge, queue } from '../server/process/queue';
import { zonesThatDiffer } from '../features/health/reads/clocks';
import { anyoneOnFile } from '../features/people/reads/people';
import { makeArchive } from '../features/archive/verbs/make-archive';
import { schemaText } from '../server/process/schema-text';
import { requeueAbandoned } from '../features/planning/verbs/plan-claim';
import { shopTimeZone } from '../features/shop/reads/shop';
import { remindOfTomorrow } from '../features/mail/verbs/remind';
import { drainOutbox } from '../features/mail/verbs/drain-outbox';
import { replayIsOld } from '../features/owner/reads/replay';
import { sendDueQuarters } from '../features/quarters/verbs/send-due-quarters';
import { keepForesightDays } from '../features/owner/verbs/keep-foresight-days';
import { writeWeekly } from '../features/owner/verbs/write-weekly';
import { sendDueReports } from '../features/reports/verbs/send-report';
import { runPlan } from '../features/planning/verbs/run-plan';
import { refitLeftOver } from '../features/intervals/verbs/refit-claim';
import { refitFleet } from '../features/intervals/verbs/refit-fleet';
import { askAddresses } from '../features/kitchens/verbs/ask-addresses';
import { forgetArrivals } from '../features/kitchens/verbs/arrivals';
import { pace, placeFinder } from '../server/position/place-finder';
import { figuresOnThread } from './figures-on-thread';
import { refitThreads } from './refit-on-threads';
import { searchOnThread } from './search-on-thread';

const ABANDONED_EVERY_MS = 10_000;
const ADDRESSES_AT_A_TIME = 50;
const SUNDAY = 6;
/** By the shop's clock, each before it opens. */
const REFIT: Nightly = { hour: 3, weekday: SUNDAY };
const FIGURES: Nightly = { hour: 4 };

type Hourly = { data: { hourly?: boolean } | null };
/**
 * Whether one of these was asked for, or came by the hour and this is the hour. A schedule in a zone of its own would be gone through hour
 * by hour twice a minute by the queue, which holds everybody up for a tenth of a second each time.
 */
async function isDue(jobs: Hourly[], when: Nightly): Promise<boolean> {
  return jobs.some(({ data }) => !data?.hourly) || isNight(await shopTimeZone(db()), now().getTime(), when);
}

/** Printed whatever the level of the log: whoever started the app, and nobody else, is to set up the shop. */
async function sayHowToSetUp(): Promise<void> {
  if (await anyoneOnFile(db())) return;
  process.stdout.write(`Nobody is on file yet. Set up the shop at ${env().NEXTAUTH_URL}/set-up with the code ${setUpCode()}\n`);
}

/** Node and PostgreSQL each carry tables of time zones, of their own date: where a government changed its mind between, one of them is an hour off. */
async function sayWhichClocksDiffer(): Promise<void> {
  const zones = await zonesThatDiffer(db(), now());
  if (zones.length > 0) log.warn({ zones }, 'app and database differ on the time there: bring Node or PostgreSQL up to date');
}

/** Starts the workers of this process, once, when the server boots. */
export async function startJobs(): Promise<void> {
  // A place for pictures that there cannot be is told now, not when the first one comes.
  pictures();
  await keepFollowingShop();
  await sayHowToSetUp();
  await sayWhichClocksDiffer();
  const boss = await queue();
  if (env().RIMEBOOK_JOBS === 'off') return;
  const mail = async () => {
    await remindOfTomorrow({ db: db(), now: now(), baseUrl: env().NEXTAUTH_URL });
    await writeWeekly({ db: db(), now: now(), baseUrl: env().NEXTAUTH_URL });
    await sendDueReports({ db: db(), now: now(), baseUrl: env().NEXTAUTH_URL });
    await sendDueQuarters({ db: db(), now: now(), baseUrl: env().NEXTAUTH_URL });
    return drainOutbox({ db: db(), now: now() }, { smtpUrl: env().SMTP_URL, from: env().MAIL_FROM });
  };
  await boss.work('mail', { pollingIntervalSeconds: 1 }, async () => void (await mail()));
  // What a nudge missed, or a failed try left, goes out within the minute.
  await boss.schedule('mail', '* * * * *');

  // What the fleet has taught is learned anew once a week, in the night: it keeps the cores busy for minutes where the shop is large.
  await boss.work<{ hourly?: boolean }>('refit', { pollingIntervalSeconds: 10 }, async (jobs) => {
    if (!(await isDue(jobs, REFIT))) return;
    const threads = refitThreads(env().DATABASE_URL);
    try {
      await refitFleet({ db: db(), now: now() }, threads);
    } finally {
      await threads.close();
    }
  });
  await boss.schedule('refit', '30 * * * *', { hourly: true });

  // A minute's worth of addresses at a time; what a nudge missed goes on within the minute.
  await boss.work('places', { pollingIntervalSeconds: 1 }, async () => {
    const ask = placeFinder();
    if (ask && (await askAddresses(db(), ask, pace, ADDRESSES_AT_A_TIME))) await nudge('places');
    await forgetArrivals({ db: db(), now: now() });
  });
  await boss.schedule('places', '* * * * *');

  // What the owner's pages only show: worked out each night, and at the start where they are old: some shops are switched off at night.
  await boss.work<{ hourly?: boolean }>('figures', { pollingIntervalSeconds: 10 }, async (jobs) => {
    if (await isDue(jobs, FIGURES)) await figuresOnThread(env().DATABASE_URL, now());
  });
  await boss.schedule('figures', '15 * * * *', { hourly: true });
  if (await replayIsOld(db(), now())) await nudge('figures');

  // Sums of days of which a look was written down or changed; until then pages go through such a day themselves.
  await boss.work('sums', { pollingIntervalSeconds: 10 }, async () => void (await keepForesightDays({ db: db() })));
  await boss.schedule('sums', '* * * * *');

  // What was asked for, what a stopped process left, and what has expired.
  await boss.work('archive', { pollingIntervalSeconds: 1 }, async () =>
    makeArchive({ db: db(), now: now(), pictures: pictures() }, env().DATABASE_URL, await schemaText()),
  );
  await boss.schedule('archive', '* * * * *');

  const clock = () => performance.now();
  await boss.work<{ runId: string }>('plan', { pollingIntervalSeconds: 0.5 }, async (jobs) => {
    for (const job of jobs) await runPlan({ db: db(), now: now() }, job.data.runId, searchOnThread, clock);
  });
  // A search or a refit left over from a process that stopped is taken up; those of living ones are left alone.
  setInterval(() => {
    requeueAbandoned(db())
      .then((runs) => Promise.all(runs.map((runId) => nudge('plan', { runId }))))
      .catch((err: unknown) => log.warn({ err }, 'abandoned plans not looked for'));
    refitLeftOver(db())
      .then((left) => (left ? nudge('refit') : undefined))
      .catch((err: unknown) => log.warn({ err }, 'an abandoned refit not looked for'));
  }, ABANDONED_EVERY_MS).unref();
}
