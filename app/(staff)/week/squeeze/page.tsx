import type { Metadata } from 'next';
import { todayIn } from '@/lib/core/calendar';
import { siteTimeOf } from '@/lib/core/planning/on-site';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { quotedMinutes } from '@/lib/core/jobs';
import { isId } from '@/lib/core/ids/is-id';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { kitchenChoices, unitsAt } from '@/lib/features/planning/reads/squeeze';
import { bookingKitchen, kitchenTasks } from '@/lib/features/visits/reads/visits';
import { definePage } from '@/lib/server/define-page';
import { PageHead, Sheet } from '../../../_ui/sheet';
import { Trail } from '../../../_ui/trail';
import { timeIn } from '@/lib/core/calendar/when';
import { hoursWords } from '../_components/hours';
import { SqueezeForm } from './_components/squeeze-form';

export const metadata: Metadata = { title: 'Squeeze in' };

const STEP = 5 * 60_000;

export default definePage('book:visit', async ({ db, now, query }) => {
  const job = isId(query.job) ? await jobPage(db, query.job) : null;
  const kitchenId = job?.kitchenId ?? query.kitchen;
  const kitchen = isId(kitchenId) ? await bookingKitchen(db, kitchenId) : null;
  const [choices, units, tasks, times, zone] = await Promise.all([
    kitchenChoices(db),
    kitchen ? unitsAt(db, kitchen.id) : [],
    kitchen ? kitchenTasks(db, kitchen.id) : [],
    learnedMinutes(db, now),
    kitchen ? kitchen.timeZone : shopTimeZone(db),
  ]);
  const agreed = job?.quotes.find((q) => q.answer === 'accepted') ?? job?.quotes.find((q) => q.sentAt && !q.supersededAt && !q.answer);
  const quoted = agreed ? quotedMinutes(agreed.lines) : null;
  const soon = Math.ceil(now.getTime() / STEP) * STEP;
  return (
    <>
      <Trail
        items={
          job
            ? [
                { href: '/jobs', label: 'Jobs' },
                { href: `/jobs/${job.id}`, label: `Job ${job.number}` },
              ]
            : [{ href: '/week', label: 'Week' }]
        }
      />
      <PageHead
        title={job ? `Who can be at ${job.kitchen.name}, and when` : 'Squeeze in an emergency'}
        lead="Looks for the way that disturbs least. Nothing is booked or moved until you take one."
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_20rem]">
        <SqueezeForm
          kitchenId={kitchen?.id ?? ''}
          job={
            job
              ? {
                  id: job.id,
                  what: job.what,
                  unitIds: job.units.map((u) => u.id),
                  quotedMinutes: quoted && Math.min(720, Math.max(10, quoted)),
                }
              : null
          }
          anyHour={job === null || job.urgency === 'now' || job.urgency === 'today'}
          kitchens={choices.map((k) => ({ value: k.id, label: k.name === k.customer ? k.name : `${k.customer}, ${k.name}` }))}
          units={units.map((u) => ({
            id: u.id,
            name: u.name,
            tasks: tasks
              .filter((t) => t.unitId === u.id)
              .map(({ id, kind, minutes, onVisit }) => ({ id, kind, minutes, booked: onVisit !== null })),
          }))}
          siteTime={siteTimeOf(times, kitchen?.id ?? '')}
          defaults={{ date: todayIn(zone, soon), from: timeIn(soon, zone) }}
        />
        {kitchen ? (
          <Sheet title="The kitchen">
            <p>{kitchen.address}</p>
            <h3 className="mt-3">Can spare its equipment</h3>
            <ul>
              {hoursWords(kitchen.serviceHours).map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
            <h3 className="mt-3">Access</h3>
            <p className="whitespace-pre-line">{kitchen.accessNotes || 'No access notes on file.'}</p>
          </Sheet>
        ) : null}
      </div>
    </>
  );
});
