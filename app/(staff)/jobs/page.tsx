import type { Metadata } from 'next';
import Link from 'next/link';
import { JOB_STATE_LABEL, JOB_WAIT_LABEL, listsOf, type JobWait } from '@/lib/core/jobs';
import { dayIn } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import { closedLately, MOST_OPEN_JOBS, openJobLines, openJobs } from '@/lib/features/jobs/reads/lists';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { JobLines } from './_components/job-lines';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Jobs' };

const SHOWN = 12;
const CLOSED_DAYS = 14;

const HINT: Record<JobWait, string> = {
  office: 'Looked at, or its visit closed without a word: say what happens next.',
  quote: 'The customer wants a price first.',
  customer: 'Sent. Ring when it runs out.',
  part: 'Ordered, or to be ordered.',
  booking: 'Ready: find a date.',
  visit: 'Booked. The technician has it.',
};

export default definePage('read:job', async ({ db, now, query }) => {
  const [open, closed] = [await openJobs(db), await closedLately(db, new Date(now.getTime() - CLOSED_DAYS * 86_400_000))];
  const lists = listsOf(open).map((l) => ({ ...l, shown: query.all === l.wait ? l.jobs : l.jobs.slice(0, SHOWN) }));
  const lines = await openJobLines(db, { ids: lists.flatMap((l) => l.shown.map((j) => j.id)) });
  const lineOf = new Map(lines.map((l) => [l.id, l]));
  return (
    <>
      <PageHead
        title="Jobs"
        lead={
          open.length < MOST_OPEN_JOBS
            ? `${counted(open.length, 'open job')}, each on the list of what it waits for.`
            : `The ${MOST_OPEN_JOBS} most urgent of the open jobs.`
        }
        actions={
          <>
            <ButtonLink href="/parts">Parts</ButtonLink>
            <FileLink href="/jobs/export">Quotes as CSV</FileLink>
            <ButtonLink href="/jobs/call" look="primary">
              Take a call
            </ButtonLink>
          </>
        }
      />
      {lists.length === 0 ? (
        <Empty action={<ButtonLink href="/jobs/call">Take a call</ButtonLink>}>
          No job stands open. One comes from a call, or from what a technician finds.
        </Empty>
      ) : null}
      <div className="gap-6 *:mb-6 *:break-inside-avoid lg:columns-2">
        {lists.map(({ wait, jobs, shown }) => (
          <Sheet key={wait} title={`Waits for: ${lower(JOB_WAIT_LABEL[wait])}`} aside={<span className="text-soft">{jobs.length}</span>}>
            <p className="-mt-2 mb-2 text-sm text-soft">{HINT[wait]}</p>
            <JobLines lines={shown.flatMap((j) => lineOf.get(j.id) ?? [])} />
            {jobs.length > shown.length ? (
              <p className="mt-2">
                <Link href={`/jobs?all=${wait}`}>{jobs.length - shown.length} more</Link>
              </p>
            ) : null}
          </Sheet>
        ))}
        {closed.length > 0 ? (
          <Sheet title={`Closed in the last ${CLOSED_DAYS} days`}>
            <ul>
              {closed.map((j) => (
                <li key={j.id} className="border-b border-line py-1.5 last:border-0">
                  <State shape={j.state === 'done' ? 'done' : 'off'} tone="soft">
                    {JOB_STATE_LABEL[j.state]}
                  </State>{' '}
                  <Link href={`/jobs/${j.id}`}>
                    {j.number}. {j.what}
                  </Link>{' '}
                  <span className="text-soft">
                    {fullKitchenName(j.kitchen)}, {dayIn(j.at, j.kitchen.timeZone)}
                    {j.note ? `: ${j.note}` : ''}
                  </span>
                </li>
              ))}
            </ul>
          </Sheet>
        ) : null}
      </div>
    </>
  );
});

const lower = (s: string) => s.charAt(0).toLowerCase() + s.slice(1);
