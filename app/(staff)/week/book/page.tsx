import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { isId } from '@/lib/core/ids/is-id';
import { addDays, isLocalDate, todayIn } from '@/lib/core/calendar';
import { firstOpening } from '@/lib/core/visits/service-hours';
import { siteTimeOf } from '@/lib/core/planning/on-site';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { bookableTechnicians, bookingKitchen, kitchenTasks, nextVisit } from '@/lib/features/visits/reads/visits';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead } from '@/app/_ui/page/sheet';
import { BookForm } from '../_components/book-form';
import { KitchenSheet } from '../_components/kitchen-sheet';

export const metadata: Metadata = { title: 'Book a visit' };

export default definePage('book:visit', async ({ db, now, query }) => {
  const kitchen = isId(query.kitchen) ? await bookingKitchen(db, query.kitchen) : null;
  if (!kitchen) notFound();
  const today = todayIn(kitchen.timeZone, now.getTime());
  const [tasks, technicians, times, next] = await Promise.all([
    kitchenTasks(db, kitchen.id),
    bookableTechnicians(db),
    learnedMinutes(db, now, kitchen.id),
    nextVisit(db, kitchen.id, now),
  ]);
  const asked = askedOf(query);
  const start = asked.date ?? addDays(today, 1);
  const opening = firstOpening(kitchen.serviceHours, start) ?? { date: start, from: '08:00' };
  const horizon = addDays(today, 14);
  const wanted = (t: (typeof tasks)[number]) => (asked.tasks.length > 0 ? asked.tasks.includes(t.id) : t.dueOn < horizon);
  const chosen = tasks.filter((t) => !t.onVisit && wanted(t)).map((t) => t.id);
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
            date: asked.date ?? opening.date,
            from: asked.from ?? opening.from,
            technicianId: asked.technicianId,
          }}
        />
        <KitchenSheet kitchen={kitchen} />
      </div>
    </>
  );
});

/** What the address asks for: a link from a list, or from a picture of the week. */
const askedOf = (query: Record<string, string | undefined>) => ({
  tasks: query.tasks?.split(',') ?? [],
  date: query.date && isLocalDate(query.date) ? query.date : null,
  from: query.from,
  technicianId: query.technician ?? '',
});
