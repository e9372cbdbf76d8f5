import type { Metadata } from 'next';
import { addDays, instantOf, isLocalDate, todayIn, weekdayOf, type LocalDate } from '@/lib/core/calendar';
import { hoursShown, spansOn } from '@/lib/core/visits/time-grid';
import { sentWeek } from './_components/sent-week';
import { gridRows, weekItems } from './_components/week-items';
import { can } from '@/lib/core/people/access';
import { definePage } from '@/lib/server/doors/define-page';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { drivesBefore } from '@/lib/features/visits/reads/drives-before';
import { bookableTechnicians, visitsBetween } from '@/lib/features/visits/reads/visits';
import { askedOtherTime } from '@/lib/features/visits/reads/asked-other-time';
import { pastNotClosed } from '@/lib/features/visits/reads/open-visits';
import { unbookedKitchens } from '@/lib/features/visits/reads/unbooked';
import { partOf } from '@/lib/core/visits/board-rows';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead } from '@/app/_ui/page/sheet';
import { dayWords } from '@/lib/core/calendar/when';
import { AskedOtherTime } from './_components/asked-time';
import { Board } from './_components/board';
import { NobodyGoes } from './_components/nobody-goes';
import { PastNotClosed } from './_components/past-not-closed';
import { ProposeButton } from './_components/propose-button';
import { Unbooked } from './_components/unbooked';

const SHOWN = 20;
/** Technicians in one picture of the week: more are paged. */
const PEOPLE = 16;

export const metadata: Metadata = { title: 'The week' };

export default definePage('read:visit', async ({ db, now, actor, query }) => {
  const timeZone = await shopTimeZone(db);
  const today = todayIn(timeZone, now.getTime());
  const asked = query.day && isLocalDate(query.day) ? (query.day as LocalDate) : today;
  const monday = addDays(asked, -weekdayOf(asked));
  const days = Array.from({ length: 7 }, (_, i) => addDays(monday, i));
  const instant = (d: LocalDate) => new Date(instantOf(d, '00:00', timeZone));
  const everybody = await bookableTechnicians(db);
  const part = partOf(everybody, PEOPLE, Number(query.people));
  const technicians = part.shown;
  const [all, unbooked, asking, past] = await Promise.all([
    visitsBetween(db, instant(monday), instant(addDays(monday, 7)), part.whose),
    unbookedKitchens(db, addDays(monday, 7), SHOWN),
    askedOtherTime(db, now),
    pastNotClosed(db, now, SHOWN),
  ]);
  const visits = all.filter((v) => v.status !== 'cancelled');
  const items = weekItems(visits, await drivesBefore(db, visits), timeZone);
  const shown = days.filter((d, i) => i < 5 || items.some((v) => v.date === d));
  const rows = gridRows(technicians, visits, shown);
  return (
    <>
      <PageHead
        title={`Week of ${dayWords(monday)}`}
        lead="Who is where, and what is due that nobody has booked."
        actions={
          <>
            <ProposeButton day={monday} />
            <ButtonLink href="/week/squeeze">Find a time</ButtonLink>
            <ButtonLink href="/week/away">Somebody is away</ButtonLink>
            <ButtonLink href={`/week?day=${addDays(monday, -7)}`}>Week before</ButtonLink>
            <ButtonLink href="/week">This week</ButtonLink>
            <ButtonLink href={`/week?day=${addDays(monday, 7)}`}>Week after</ButtonLink>
            <ButtonLink href="/week/travel" look="quiet">
              Driving minutes
            </ButtonLink>
            <ButtonLink href="/week/calendars" look="quiet">
              Calendar addresses
            </ButtonLink>
            <ButtonLink href="/entries" look="quiet">
              Tablet entries
            </ButtonLink>
          </>
        }
      />
      <div className="flex flex-col gap-6">
        {asking.length + past.total > 0 ? (
          <div className={`grid grid-cols-1 items-start gap-6 ${asking.length > 0 ? 'lg:grid-cols-2' : ''}`}>
            {asking.length > 0 ? <AskedOtherTime visits={asking} /> : null}
            {past.total > 0 ? <PastNotClosed {...past} /> : null}
          </div>
        ) : null}
        {rows.length === 0 ? (
          <NobodyGoes mayAdd={can(actor, 'manage:people')} />
        ) : (
          <Board
            days={shown}
            today={today}
            timeZone={timeZone}
            rows={rows}
            week={sentWeek(items)}
            hours={hoursShown([...items, ...technicians.flatMap((t) => shown.flatMap((d) => spansOn(t.shifts, d)))])}
          />
        )}
        {part.parts > 1 ? <PeoplePages monday={monday} part={part} all={everybody.length} /> : null}
        <Unbooked {...unbooked} today={today} />
      </div>
    </>
  );
});

/** Which technicians the picture shows, and the way to the others. */
function PeoplePages({
  monday,
  part,
  all,
}: {
  monday: LocalDate;
  part: Pick<ReturnType<typeof partOf>, 'part' | 'parts' | 'first'> & { shown: unknown[] };
  all: number;
}) {
  const to = (n: number) => `/week?day=${monday}&people=${n}`;
  return (
    <nav aria-label="Other technicians" className="flex flex-wrap items-center gap-2">
      <span className="text-soft">
        Technicians {part.first + 1}–{part.first + part.shown.length} of {all}
      </span>
      {part.part > 0 ? <ButtonLink href={to(part.part - 1)}>Those before</ButtonLink> : null}
      {part.part < part.parts - 1 ? <ButtonLink href={to(part.part + 1)}>Those after</ButtonLink> : null}
    </nav>
  );
}
