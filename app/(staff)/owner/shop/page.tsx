import type { Metadata } from 'next';
import Link from 'next/link';
import { Figure } from '@/app/_ui/figures/figure';
import { PERCENT } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { addDays, todayIn } from '@/lib/core/calendar';
import { fromLocalDate } from '@/lib/core/calendar/date-column';
import { dateWords, dayIn, dayWords } from '@/lib/core/calendar/when';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { JOB_STATE_LABEL } from '@/lib/core/jobs';
import { money } from '@/lib/core/measures/figures';
import { shareInterval } from '@/lib/core/numerics';
import { ENOUGH } from '@/lib/core/owner/judged';
import { SHOP_DAYS as DAYS } from '@/lib/core/owner/days';
import { overdueTable } from '@/lib/core/owner/overdue';
import { periodOf } from '@/lib/core/owner/period';
import { counted } from '@/lib/core/wording/counted';
import { judgedForesights } from '@/lib/features/owner/reads/foresights';
import { gasLost, jobsWaiting, quoteMoney, warrantiesEnding } from '@/lib/features/owner/reads/shop-money';
import { overdueGroups, workDone } from '@/lib/features/owner/reads/shop-work';
import { callOuts } from '@/lib/features/owner/reads/visit-lines';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { dbForLongReads } from '@/lib/server/process/long-reads';
import { definePage } from '@/lib/server/doors/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { OwnerTabs } from '../_components/owner-tabs';
import { PeriodForm } from '../_components/period-form';
import { Eyes } from './_components/eyes';
import { NOT_YET, NumberOf, Whence } from './_components/number-of';
import { OverdueTable } from './_components/overdue-table';
import { bulk } from '@/app/(staff)/refrigerants/book/_components/words';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { unitsOf } from '@/lib/features/people/reads/people';
import { fullKitchenName, kitchenInFull } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'The shop’s work' };

const hours = (h: number) => `${h < 10 ? h.toFixed(1) : Math.round(h)} h`;

export default definePage('read:fouling', async ({ now, actor, query }) => {
  const db = await dbForLongReads();
  const [shop, units] = await Promise.all([shopSettings(db), unitsOf(db, actor.userId)]);
  const zone = shop?.timeZone ?? 'UTC';
  const today = todayIn(zone, now.getTime());
  const { from, to } = periodOf(query, today, DAYS);
  const [work, calls, late, jobs, quotes, gas, ending, judged] = await Promise.all([
    workDone(db, from, to, zone, now),
    callOuts(db, from, to, zone, now),
    overdueGroups(db, now),
    jobsWaiting(db),
    quoteMoney(db, from, to, zone),
    gasLost(db, from, to, zone),
    warrantiesEnding(db, fromLocalDate(today), fromLocalDate(addDays(today, DAYS))),
    judgedForesights(db, from, to),
  ]);
  return (
    <>
      <PageHead title="The shop’s work" lead={`${dateWords(from)} to ${dateWords(addDays(to, -1))}. What waits is as of now.`} />
      <OwnerTabs at="/owner/shop" />
      <PeriodForm action="/owner/shop" from={from} to={to} />
      <div className="grid grid-cols-[minmax(0,1fr)] items-start gap-6 lg:grid-cols-[repeat(2,minmax(0,1fr))]">
        <div className="flex flex-col gap-6">
          <Visits work={work} calls={calls} file={`/owner/shop/export?from=${from}&until=${addDays(to, -1)}`} />
          <WhoGradesHarder people={judged.filter((r) => r.by === 'who' && r.graded > 0)} />
        </div>
        <div className="flex flex-col gap-6">
          <Overdue rows={overdueTable(late.groups, late.crew)} />
          <JobsAndQuotes jobs={jobs} quotes={quotes} zone={zone} />
          <RefrigerantLost gas={gas} units={units} />
          <Warranties ending={ending} />
        </div>
      </div>
    </>
  );
});

type Work = Awaited<ReturnType<typeof workDone>>;

const leftOutWords = ({ cancelled, unclosed, nobodyThere }: Work): string =>
  [
    cancelled > 0 ? `${cancelled} cancelled` : '',
    unclosed > 0 ? `${unclosed} over and not closed` : '',
    nobodyThere > 0 ? `${nobodyThere} with nobody there` : '',
  ]
    .filter(Boolean)
    .join(', ');

type VisitsProps = {
  work: Work;
  calls: Awaited<ReturnType<typeof callOuts>>;
  file: string;
};

function Visits({ work, calls, file }: VisitsProps) {
  const rang = calls.visits >= ENOUGH ? shareInterval(calls.followed, calls.visits) : null;
  return (
    <Sheet title="Visits" aside={<FileLink href={file}>Each of them, as a file</FileLink>}>
      <NumberOf
        title="Visits done"
        figure={
          work.planned > 0 ? (
            <>
              {work.done} <span>of {work.planned} planned</span>
            </>
          ) : (
            NOT_YET
          )
        }
        made="Visits that begin in these days by the shop’s clock, cancelled ones left out. Done is closed on the tablet or in the office."
      >
        {leftOutWords(work)}
      </NumberOf>
      <NumberOf
        title="In kitchens"
        figure={work.timed > 0 ? hours(work.hours) : NOT_YET}
        made={`From arriving to leaving, of the ${counted(work.timed, 'visit')} of which both are known${work.done > work.timed ? `; ${work.done - work.timed} done without both` : ''}.`}
      >
        {work.timed > 0 ? `${Math.round((60 * work.hours) / work.timed)} minutes a visit` : ''}
      </NumberOf>
      <NumberOf
        title="On the road between kitchens"
        figure={work.legs > 0 ? hours(work.roadHours) : <span className="text-soft">can’t say</span>}
        made="For each technician and day, from each kitchen to the next: imported minutes where a pair has them, else distance by positions times the shop’s detour and over its speed. Reckoned, not measured; the way from home and back is not in it."
      >
        {work.unknownLegs > 0 ? `${counted(work.unknownLegs, 'way')} left out: a kitchen without a position.` : ''}
      </NumberOf>
      <NumberOf
        title="Called out within 30 days of a visit"
        figure={rang ? <Figure of={rang} scale={PERCENT} /> : NOT_YET}
        made="Visits of these days that are 30 days past and did some work. Counted when the kitchen rang, or asked on its page, about a unit of that visit within 30 days after it. The band is Wilson’s 95 % interval."
      >
        {calls.visits > 0 ? `${calls.followed} of ${counted(calls.visits, 'visit')}.` : null}
        {calls.latest.length > 0 ? (
          <ul className="mt-1">
            {calls.latest.map((c) => (
              <li key={c.visitId}>
                <Link href={`/visits/${c.visitId}`}>{dayWords(c.day)}</Link>, {kitchenInFull(c)}:{' '}
                <Link href={`/jobs/${c.jobId}`}>{c.what}</Link>
              </li>
            ))}
            {calls.followed > calls.latest.length ? (
              <li className="text-soft">And {calls.followed - calls.latest.length} more, in the file.</li>
            ) : null}
          </ul>
        ) : null}
      </NumberOf>
    </Sheet>
  );
}

function Overdue({ rows }: { rows: ReturnType<typeof overdueTable> }) {
  return (
    <Sheet title={<Link href="/due?show=overdue&booked=1">Overdue, and why</Link>}>
      {rows.length === 0 ? <p className="text-soft">Nothing is late.</p> : <OverdueTable rows={rows} />}
      <Whence>
        Active tasks whose date is past in their kitchen. Of several reasons the first holds, in the order: asked for another time, on a
        visit, no active technician with what the unit asks (flammable refrigerant, roof), no shift of one who has it within the kitchen’s
        hours, nobody there at the kitchen’s last visit. Else it is only that nobody has booked it.
      </Whence>
    </Sheet>
  );
}

type JobsProps = {
  jobs: Awaited<ReturnType<typeof jobsWaiting>>;
  quotes: Awaited<ReturnType<typeof quoteMoney>>;
  zone: string;
};

function JobsAndQuotes({ jobs, quotes, zone }: JobsProps) {
  return (
    <Sheet title={<Link href="/jobs">Jobs and quotes</Link>}>
      {jobs.length === 0 ? <p className="text-soft">No job is open.</p> : null}
      <ul className="mb-3">
        {jobs.map((j) => (
          <li key={j.state} className="flex justify-between gap-4 border-b border-line py-1.5">
            <span>{JOB_STATE_LABEL[j.state]}</span>
            <span>
              <b>{j.jobs}</b> <span className="text-sm text-soft">oldest of {dayIn(j.oldest, zone)}</span>
            </span>
          </li>
        ))}
      </ul>
      {quotes.map((q) => (
        <NumberOf
          key={q.currency}
          title="In quotes that wait for an answer"
          figure={
            <>
              {money(q.waitingCents, q.currency)} <span>in {counted(q.waiting, 'quote')}</span>
            </>
          }
          made="Sums with tax of quotes that were sent and not answered, newest versions only, of open jobs. Accepted and declined: answered in these days."
        >
          {q.accepted} accepted in these days, {money(q.acceptedCents, q.currency)}; {q.declined} declined.
        </NumberOf>
      ))}
    </Sheet>
  );
}

function RefrigerantLost({ gas, units }: { gas: Awaited<ReturnType<typeof gasLost>>; units: MeasureUnits }) {
  return (
    <Sheet title={<Link href="/refrigerants/book">Refrigerant lost</Link>}>
      {gas.length === 0 ? (
        <p className="text-soft">No refrigerant went into a unit in these days.</p>
      ) : (
        <Table label="Refrigerant into and out of units">
          <thead>
            <tr>
              <Th>Refrigerant</Th>
              <Th className="text-right">Into units</Th>
              <Th className="text-right">Out of them</Th>
              <Th className="text-right">Not accounted for</Th>
            </tr>
          </thead>
          <tbody>
            {gas.map((g) => (
              <tr key={g.refrigerant}>
                <Td>{refrigerantLabel(g.refrigerant)}</Td>
                <Td className="text-right">{bulk(g.chargedKg, units)}</Td>
                <Td className="text-right">{bulk(g.recoveredKg, units)}</Td>
                <Td className="text-right font-bold">{bulk(Math.max(0, g.chargedKg - g.recoveredKg), units)}</Td>
              </tr>
            ))}
          </tbody>
        </Table>
      )}
      <Whence>
        Weighed lines of the refrigerant book, lines taken back left out. What went in and did not come out stands for what had got lost
        before; the first charge of a new circuit counts in it too. Leak rates of single units stand on their own pages.
      </Whence>
    </Sheet>
  );
}

function WhoGradesHarder({ people }: { people: Awaited<ReturnType<typeof judgedForesights>> }) {
  return (
    <Sheet title="Who grades harder">
      {people.length === 0 ? <p>{NOT_YET}</p> : <Eyes people={people} />}
      <Whence>
        Each grade of a coil, bare 0 to packed 4, less what that unit’s record of before the visit, mostly others’ looks, expected of that
        day. The mean of a person’s differences has a band such that all rows together are right 19 times in 20. Which visits:{' '}
        <Link href="/owner/right">Is it right?</Link>
      </Whence>
    </Sheet>
  );
}

function Warranties({ ending }: { ending: Awaited<ReturnType<typeof warrantiesEnding>> }) {
  return (
    <Sheet title={`Warranties that end within ${DAYS} days`}>
      {ending.count === 0 ? <p className="text-soft">None.</p> : null}
      <ul>
        {ending.rows.map((w) => (
          <li key={w.id} className="border-b border-line py-1.5 last:border-0">
            <Link href={`/units/${w.unit.id}`}>{w.unit.name}</Link>, {fullKitchenName(w.unit.kitchen)}: {w.what}, {dateWords(w.until)}
          </li>
        ))}
      </ul>
      {ending.count > ending.rows.length ? <p className="text-sm text-soft">And {ending.count - ending.rows.length} more.</p> : null}
    </Sheet>
  );
}
