import type { Metadata } from 'next';
import { boardRows } from '@/lib/core/visits/board-rows';
import { dayConcerns } from '@/lib/core/visits/concerns';
import { addDays, instantOf, isLocalDate, todayIn, weekdayOf, type LocalDate } from '@/lib/core/calendar';
import { definePage } from '@/lib/server/define-page';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { travelMinutes } from '@/lib/core/planning';
import { travelBetween } from '@/lib/features/planning/reads/travel';
import { bookableTechnicians, visitsBetween, type BoardVisit } from '@/lib/features/visits/reads/visits';
import { askedOtherTime } from '@/lib/features/visits/reads/asked-other-time';
import { pastNotClosed } from '@/lib/features/visits/reads/open-visits';
import { unbookedKitchens } from '@/lib/features/visits/reads/unbooked';
import { ButtonLink } from '../../_ui/button';
import { PageHead } from '../../_ui/sheet';
import { dayWords } from '@/lib/core/calendar/when';
import { AskedOtherTime } from './_components/asked-time';
import { Board } from './_components/board';
import { PastNotClosed } from './_components/past-not-closed';
import { ProposeButton } from './_components/propose-button';
import { Unbooked } from './_components/unbooked';

const SHOWN = 20;

export const metadata: Metadata = { title: 'The week' };

export default definePage('read:visit', async ({ db, now, query }) => {
  const timeZone = await shopTimeZone(db);
  const today = todayIn(timeZone, now.getTime());
  const asked = query.day && isLocalDate(query.day) ? (query.day as LocalDate) : today;
  const monday = addDays(asked, -weekdayOf(asked));
  const days = Array.from({ length: 7 }, (_, i) => addDays(monday, i));
  const instant = (d: LocalDate) => new Date(instantOf(d, '00:00', timeZone));
  const [all, technicians, unbooked, asking, past] = await Promise.all([
    visitsBetween(db, instant(monday), instant(addDays(monday, 7))),
    bookableTechnicians(db),
    unbookedKitchens(db, addDays(monday, 7), SHOWN),
    askedOtherTime(db, now),
    pastNotClosed(db, now, SHOWN),
  ]);
  const visits = all.filter((v) => v.status !== 'cancelled');
  const road = await travelBetween(
    db,
    visits.map((v) => v.kitchenId),
  );
  return (
    <>
      <PageHead
        title={`Week of ${dayWords(monday)}`}
        lead="Who is where, and what is due that nobody has booked."
        actions={
          <>
            <ProposeButton day={monday} />
            <ButtonLink href="/week/squeeze">Squeeze in</ButtonLink>
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
      <div className="grid grid-cols-1 gap-6 xl:grid-cols-[minmax(0,1fr)_19rem]">
        <Board
          days={days}
          today={today}
          timeZone={timeZone}
          visits={onTheBoard(visits, road, timeZone)}
          rows={boardRows(technicians, visits)}
        />
        <div className="flex flex-col gap-6 max-xl:contents">
          {asking.length > 0 ? <AskedOtherTime visits={asking} /> : null}
          {past.total > 0 ? <PastNotClosed {...past} /> : null}
          <Unbooked {...unbooked} today={today} />
        </div>
      </div>
    </>
  );
});

/** Each with the minutes on the road from the technician's stop before, on the same day, and what speaks against its day. */
function onTheBoard(visits: BoardVisit[], { travel, placeOf }: Awaited<ReturnType<typeof travelBetween>>, shopTimeZone: string) {
  const place = (v: BoardVisit) => placeOf({ id: v.kitchenId, lat: v.lat, lng: v.lng }) ?? {};
  return visits.map((v) => {
    const before = visits.findLast(
      (o) => o.technicianId === v.technicianId && o.endsAt <= v.startsAt && v.startsAt - o.endsAt < 10 * 3_600_000,
    );
    const { timeOff, blackouts, ...visit } = v;
    const { closed, off } = dayConcerns({
      start: v.startsAt,
      kitchen: { timeZone: v.timeZone, blackouts },
      technician: { name: v.technician, timeOff },
      shopTimeZone,
    });
    return {
      ...visit,
      driveMinutes: before ? travelMinutes(place(before), place(v), travel) : null,
      against: v.status === 'booked' ? [closed, off].filter((words) => words !== null) : [],
    };
  });
}
