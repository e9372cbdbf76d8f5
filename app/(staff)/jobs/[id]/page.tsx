import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { daysBetween, todayIn } from '@/lib/core/calendar';
import { can } from '@/lib/core/people/access';
import { isId } from '@/lib/core/ids/is-id';
import { isBookable, isOpen, JOB_SOURCE_LABEL, JOB_STATE_LABEL, JOB_WAIT_LABEL, stepsFrom, waitsFor } from '@/lib/core/jobs';
import { counted } from '@/lib/core/wording/counted';
import { dateWords, dayIn, dayWords, momentIn } from '@/lib/core/calendar/when';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Facts } from '@/app/_ui/tables/facts';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Trail } from '@/app/_ui/page/trail';
import { Urgency } from '../_components/job-lines';
import { EditForm } from './_components/edit-form';
import { JobHistory } from './_components/job-history';
import { Quotes } from './_components/quotes';
import { StepForm } from './_components/step-form';
import { Warranties } from './_components/warranties';
import { VisitForm } from './_components/visit-form';
import { WorkDone } from './_components/work-done';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Job' };

export default definePage('read:job', async ({ db, actor, now, params }) => {
  const job = isId(params.id) ? await jobPage(db, params.id) : null;
  if (!job) notFound();
  const { kitchen } = job;
  const zone = kitchen.timeZone;
  const wait = waitsFor(job);
  const writes = can(actor, 'write:job');
  const open = isOpen(job.state);
  const today = todayIn(zone, now.getTime());
  return (
    <>
      <Trail
        items={[
          { href: '/jobs', label: 'Jobs' },
          { href: `/kitchens/${kitchen.id}`, label: fullKitchenName(kitchen) },
        ]}
      />
      <PageHead
        title={`${job.number}. ${job.what}`}
        lead={wait ? `${JOB_STATE_LABEL[job.state]}. Waits for: ${JOB_WAIT_LABEL[wait].toLowerCase()}.` : undefined}
        actions={
          writes && isBookable(job) && wait !== 'visit' ? (
            <ButtonLink href={`/week/squeeze?job=${job.id}`} look={wait === 'booking' ? 'primary' : 'plain'}>
              Find a time
            </ButtonLink>
          ) : null
        }
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_24rem]">
        <div className="flex min-w-0 flex-col gap-6">
          <TheJob job={job} today={today} />
          <Quotes
            jobId={job.id}
            quotes={job.quotes}
            timeZone={zone}
            today={today}
            mayWrite={writes && open}
            email={kitchen.contactEmail || kitchen.customer.email}
          />
          <WorkDone visits={job.work.visits} records={job.work.records} timeZone={zone} />
          <JobHistory events={job.events} timeZone={zone} />
        </div>
        {writes ? <NextSteps job={job} /> : null}
      </div>
    </>
  );
});

type Job = NonNullable<Awaited<ReturnType<typeof jobPage>>>;

/** What was asked for, by whom, for which units, and what became of it. */
function TheJob({ job, today }: { job: Job; today: string }) {
  const open = isOpen(job.state);
  return (
    <Sheet title="The job" aside={open ? <Urgency urgency={job.urgency} /> : <Closed state={job.state} />}>
      <Facts items={factsOf(job, open)} />
      {job.note ? <p className="mt-3 whitespace-pre-line">{job.note}</p> : null}
      {open ? <UnderWarranty units={job.units} today={today} /> : null}
      <RepeatCall job={job} />
    </Sheet>
  );
}

/** Said before anybody writes a quote: somebody else may pay. */
function UnderWarranty({ units, today }: { units: Job['units']; today: string }) {
  const covered = units.flatMap((u) => u.warranties.filter((w) => w.until >= today).map((w) => ({ ...w, unit: u.name })));
  if (covered.length === 0) return null;
  return (
    <p className="mt-3">
      <State shape="ask" tone="alarm">
        Under warranty
      </State>{' '}
      {covered.map((w) => `${w.unit}, ${w.what}: until ${dateWords(w.until)}`).join('; ')}.
    </p>
  );
}

function factsOf(job: Job, open: boolean) {
  const zone = job.kitchen.timeZone;
  const found = job.foundVisit;
  const booked = bookedOf(job);
  return [
    [
      'Kitchen',
      <Link key="k" href={`/kitchens/${job.kitchen.id}`}>
        {fullKitchenName(job.kitchen)}
      </Link>,
    ],
    ['From', `${JOB_SOURCE_LABEL[job.source]}, ${momentIn(job.createdAt, zone)}`],
    ['Caller', [job.callerName, job.callerPhone].filter(Boolean).join(', ')],
    ['Do it by', job.dueOn ? dayWords(job.dueOn) : ''],
    [job.units.length === 1 ? 'Unit' : 'Units', <UnitLinks key="u" units={job.units} />],
    [
      'Found at',
      found && (
        <Link key="f" href={`/visits/${found.id}`}>
          {`${dayIn(found.startsAt, zone)}, ${found.technician.name}`}
        </Link>
      ),
    ],
    [
      'Booked',
      booked && (
        <Link key="v" href={`/week/${booked.id}`}>
          {`${momentIn(booked.startsAt, zone)}, ${booked.technician.name}`}
        </Link>
      ),
    ],
    ['They ask for', job.timeAsked],
    ['What came of it', open ? '' : job.closedNote],
  ] as const;
}

/** The visit it stands on now. */
const bookedOf = (job: Job) => (job.state === 'booked' ? job.visit : null);

function UnitLinks({ units }: { units: Job['units'] }) {
  if (units.length === 0) return 'Not said yet';
  return (
    <span>
      {units.map((u, i) => (
        <span key={u.id}>
          {i > 0 ? ', ' : ''}
          <Link href={`/units/${u.id}`}>{u.name}</Link>
        </span>
      ))}
    </span>
  );
}

function RepeatCall({ job }: { job: Job }) {
  if (job.against.length === 0) return null;
  return (
    <div className="mt-4 border-l-4 border-alarm pl-3">
      <p className="font-bold">A repeat call: counted against what was done before</p>
      <ul>
        {job.against.map((p) => (
          <li key={`${p.on} ${p.unitId} ${p.what}`}>
            {p.what}, {counted(daysBetween(p.on, job.calledOn), 'day')} before, {dayWords(p.on)}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** What the office may do next. */
function NextSteps({ job }: { job: Job }) {
  const open = isOpen(job.state);
  return (
    <div className="flex min-w-0 flex-col gap-6">
      <StepForm jobId={job.id} from={job.state} steps={stepsFrom(job)} />
      {isBookable(job) && !bookedOf(job) ? (
        <VisitForm
          jobId={job.id}
          visits={job.coming.map((v) => ({ value: v.id, label: `${momentIn(v.startsAt, job.kitchen.timeZone)}, ${v.technician.name}` }))}
        />
      ) : null}
      {open ? <Warranties jobId={job.id} units={job.units} /> : null}
      {open ? (
        <EditForm
          job={{ id: job.id, version: job.version, what: job.what, urgency: job.urgency, unitIds: job.units.map((u) => u.id) }}
          units={job.kitchenUnits}
        />
      ) : null}
    </div>
  );
}

const Closed = ({ state }: { state: 'done' | 'declined' | string }) => (
  <State shape={state === 'done' ? 'done' : 'off'} tone="soft">
    {state === 'done' ? 'Done' : 'Declined'}
  </State>
);
