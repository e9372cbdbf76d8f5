import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { addDays, isLocalDate, todayIn } from '@/lib/core/calendar';
import { firstOpening } from '@/lib/core/visits/service-hours';
import { siteTimeOf } from '@/lib/core/planning/on-site';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { bookableTechnicians, bookingKitchen, kitchenTasks, nextVisit } from '@/lib/features/visits/reads/visits';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '../../../_ui/button';
import { PageHead, Sheet } from '../../../_ui/sheet';
import { BookForm } from '../_components/book-form';
import { hoursWords } from '../_components/hours';

export const metadata: Metadata = { title: 'Book a visit' };

const UUID = /^[0-9a-f-]{36}$/i;

export default definePage('book:visit', async ({ db, now, query }) => {
  const kitchen = query.kitchen && UUID.test(query.kitchen) ? await bookingKitchen(db, query.kitchen) : null;
  if (!kitchen) notFound();
  const today = todayIn(kitchen.timeZone, now.getTime());
  const [tasks, technicians, times, next] = await Promise.all([
    kitchenTasks(db, kitchen.id),
    bookableTechnicians(db),
    learnedMinutes(db, now, kitchen.id),
    nextVisit(db, kitchen.id, now),
  ]);
  const asked = { tasks: query.tasks?.split(',') ?? [], date: query.date && isLocalDate(query.date) ? query.date : null };
  const start = asked.date ?? addDays(today, 1);
  const opening = firstOpening(kitchen.serviceHours, start);
  const horizon = addDays(today, 14);
  const chosen = tasks.filter((t) => !t.onVisit && (asked.tasks.length ? asked.tasks.includes(t.id) : t.dueOn < horizon)).map((t) => t.id);
  return (
    <>
      <PageHead title={`Book ${kitchen.name}`} lead={`${kitchen.customer}, ${kitchen.address}`} />
      {next ? (
        <p className="mb-6 flex flex-wrap items-center gap-x-4 gap-y-2 rounded-md border-2 border-cold bg-sheet p-4">
          <span>
            <b>{next.technician} comes here already</b> on {dayIn(next.startsAt, kitchen.timeZone)},{' '}
            {timeIn(next.startsAt, kitchen.timeZone)}.
          </span>
          <ButtonLink href={`/week/${next.id}?add=${chosen.join(',')}`}>Add these tasks to that visit</ButtonLink>
        </p>
      ) : null}
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-[minmax(0,1fr)_20rem]">
        <BookForm
          kitchenId={kitchen.id}
          tasks={tasks}
          chosen={chosen}
          today={today}
          siteTime={siteTimeOf(times, kitchen.id)}
          technicians={technicians.map((t) => ({ value: t.id, label: t.name }))}
          defaults={{
            date: asked.date ?? opening?.date ?? start,
            from: query.from ?? opening?.from ?? '08:00',
            technicianId: query.technician ?? '',
          }}
        />
        <Sheet title="The kitchen" className="self-start">
          <h3>Can spare its equipment</h3>
          <ul className="mb-4">
            {hoursWords(kitchen.serviceHours).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <h3>Access</h3>
          <p className="whitespace-pre-line">{kitchen.accessNotes || 'No access notes on file.'}</p>
        </Sheet>
      </div>
    </>
  );
});
