import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import type { Metadata } from 'next';
import Link from 'next/link';
import { todayIn, clockIn } from '@/lib/core/calendar';
import { siteTimeOf } from '@/lib/core/planning/on-site';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { quotedMinutes } from '@/lib/core/jobs';
import { isId } from '@/lib/core/ids/is-id';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { kitchenChoices, unitsAt } from '@/lib/features/planning/reads/squeeze';
import { bookingKitchen, kitchenTasks } from '@/lib/features/visits/reads/visits';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { KitchenSheet } from '../_components/kitchen-sheet';
import { SqueezeForm } from './_components/squeeze-form';

export const metadata: Metadata = { title: 'Find a time' };

const STEP = 5 * 60_000;

export default definePage('book:visit', async ({ db, now, query }) => {
  const job = isId(query.job) ? await jobPage(db, query.job) : null;
  const kitchenId = job?.kitchenId ?? query.kitchen;
  const kitchen = isId(kitchenId) ? await bookingKitchen(db, kitchenId) : null;
  const [choices, at] = await Promise.all([job ? [] : kitchenChoices(db), kitchen ? atKitchen(db, kitchen, now) : atNone(db, now)]);
  const soon = Math.ceil(now.getTime() / STEP) * STEP;
  return (
    <>
      <Trail items={trailOf(job)} />
      <PageHead
        title={job ? `Who can be at ${fullKitchenName(job.kitchen)}, and when` : 'Find a time for an emergency'}
        lead="Looks for the way that disturbs least. Nothing is booked or moved until you take one."
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_20rem]">
        <SqueezeForm
          kitchenId={kitchen?.id ?? ''}
          job={job && inHand(job)}
          anyHour={cannotWait(job)}
          {...toChoose(choices, kitchen)}
          units={at.units}
          siteTime={at.siteTime}
          defaults={{ date: todayIn(at.zone, soon), from: clockIn(at.zone, soon) }}
        />
        {kitchen ? <KitchenSheet kitchen={kitchen} address /> : null}
        {!job && choices.length === 0 ? (
          <p className="text-soft">
            No kitchen is on file yet. <Link href="/customers">Put kitchens on file</Link>.
          </p>
        ) : null}
      </div>
    </>
  );
});

type Db = Parameters<typeof bookingKitchen>[0];
type Kitchen = NonNullable<Awaited<ReturnType<typeof bookingKitchen>>>;

const MOST_CHOICES = 200;

/** All kitchens, or of a large shop, once one is chosen, those of its customer: the others are a way back. */
function toChoose(all: Awaited<ReturnType<typeof kitchenChoices>>, chosen: Kitchen | null) {
  const few = chosen !== null && all.length > MOST_CHOICES;
  const shown = few ? all.filter((k) => k.customer === chosen.customer) : all;
  return { kitchens: shown.map((k) => ({ value: k.id, label: fullKitchenName(k) })), others: few };
}

/** What the form asks of a kitchen: its units with their tasks, and how long work takes there. */
async function atKitchen(db: Db, { id, timeZone }: Kitchen, now: Date) {
  const [units, tasks, times] = await Promise.all([unitsAt(db, id), kitchenTasks(db, id), learnedMinutes(db, now, id)]);
  const tasksOf = (unitId: string) =>
    tasks.filter((t) => t.unitId === unitId).map(({ id, kind, minutes, onVisit }) => ({ id, kind, minutes, booked: onVisit !== null }));
  return {
    units: units.map((u) => ({ id: u.id, name: u.name, tasks: tasksOf(u.id) })),
    siteTime: siteTimeOf(times, id),
    zone: timeZone,
  };
}

/** Before a kitchen is chosen the shop's own clock and experience count. */
async function atNone(db: Db, now: Date) {
  const [times, zone] = await Promise.all([learnedMinutes(db, now, null), shopTimeZone(db)]);
  return { units: [], siteTime: siteTimeOf(times, ''), zone };
}

type Job = Awaited<ReturnType<typeof jobPage>>;

const trailOf = (job: Job) =>
  job
    ? [
        { href: '/jobs', label: 'Jobs' },
        { href: `/jobs/${job.id}`, label: `Job ${job.number}` },
      ]
    : [{ href: '/week', label: 'Week' }];

/** Work that cannot wait for the kitchen's hours; without a job it is taken to be such. */
const cannotWait = (job: Job): boolean => job === null || job.urgency === 'now' || job.urgency === 'today';

/** The job as the form asks for it: as long as the labour of the quote that was agreed, or else waits for its answer. */
function inHand({ id, what, units, quotes }: NonNullable<Job>) {
  const agreed = quotes.find((q) => q.answer === 'accepted') ?? quotes.find((q) => q.sentAt && !q.supersededAt && !q.answer);
  const minutes = agreed ? quotedMinutes(agreed.lines) : null;
  return { id, what, unitIds: units.map((u) => u.id), quotedMinutes: minutes && Math.min(720, Math.max(10, minutes)) };
}
