import { State } from '@/app/_ui/states/state';
import { dayAt, timeAt } from '@/lib/core/calendar/at-offset';
import { JOB_URGENCY_LABEL } from '@/lib/core/jobs/states';
import { counted } from '@/lib/core/wording/counted';
import { hasWork, type VisitOnFile } from '@/lib/core/tablet';
import { useSnapshot } from '../_lib/tablet-context';
import { to } from '../_lib/use-place';
import { AskArrivals } from './ask-arrivals';
import { LostPictures } from './lost-pictures';
import { OfficeAnswers } from './office-answers';
import { OthersUnsent } from './others-unsent';
import { ChipLink } from './touch';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

/** The days' visits in order; the next stop stands out. */
export function RoundList({ gone = false }: { gone?: boolean }) {
  const visits = useSnapshot((s) => s.visits);
  const me = useSnapshot((s) => s.me);
  const entries = useSnapshot((s) => s.entries);
  // Given to someone else, a visit stays where work of this tablet is on it, or an entry about it is not done with.
  const about = (v: VisitOnFile) => [...entries.values()].some((k) => k.visitId === v.id);
  const shown = visits.filter((v) => !v.nowWith || hasWork(v) || about(v));
  const own = shown.filter((v) => !v.nowWith);
  const next = own.find((v) => v.status === 'started') ?? own.find((v) => v.status === 'booked');
  const days = groupDays(shown);
  return (
    <div className="flex flex-col gap-5">
      <div className="flex flex-wrap items-center justify-between gap-3">
        <h1>{me ? `${me.name.split(' ')[0]}’s round` : 'Round'}</h1>
        <ChipLink href={to.tag()}>Open by tag</ChipLink>
      </div>
      <AskArrivals />
      <LostPictures />
      <OfficeAnswers />
      {gone ? (
        <p role="alert" className="font-bold text-alarm">
          That visit is not on this tablet. It may have been moved; refresh, or ask the office.
        </p>
      ) : null}
      {shown.length === 0 ? (
        <p className="rounded-lg border border-dashed border-edge px-6 py-10 text-center text-soft">
          No visits in the next days. Once the office books one for you, it appears here at the next refresh.
        </p>
      ) : null}
      {days.map(([day, list]) => (
        <section key={day} className="flex flex-col gap-2">
          <h2 className="text-soft">{day}</h2>
          <ul className="flex flex-col gap-2">
            {list.map((v) => (
              <li key={v.id}>
                <VisitCard visit={v} next={v === next} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      <OthersUnsent />
    </div>
  );
}

function groupDays(visits: readonly VisitOnFile[]): [string, VisitOnFile[]][] {
  const days = new Map<string, VisitOnFile[]>();
  for (const v of visits) {
    const day = dayAt(Date.parse(v.startsAt), v.kitchen.utcOffsetMinutes);
    days.set(day, [...(days.get(day) ?? []), v]);
  }
  return [...days];
}

export function VisitState({ visit }: { visit: VisitOnFile }) {
  if (visit.nowWith)
    return (
      <State shape="ask" tone="alarm">
        With {visit.nowWith} now
      </State>
    );
  if (visit.status === 'done')
    return (
      <State shape="done" tone="soft">
        Closed
      </State>
    );
  if (visit.status === 'cancelled')
    return (
      <State shape="off" tone="alarm">
        Cancelled
      </State>
    );
  if (visit.status === 'started')
    return (
      <State shape="now" tone="cold">
        Under way
      </State>
    );
  return <State shape="later">Booked</State>;
}

function VisitCard({ visit, next }: { visit: VisitOnFile; next: boolean }) {
  const { utcOffsetMinutes } = visit.kitchen;
  const units = new Set(visit.tasks.map((t) => t.unitId)).size;
  const jobs = (visit.jobs ?? []).filter((j) => j.booked);
  return (
    <a
      href={to.visit(visit.id)}
      className={`flex min-h-[4.5rem] items-center gap-4 rounded-lg border px-4 py-3 text-ink no-underline ${next ? 'border-2 border-cold' : 'border-edge'} ${visit.status === 'done' || visit.status === 'cancelled' ? '' : 'bg-sheet'}`}
    >
      <span className="w-21 shrink-0 leading-tight whitespace-nowrap">
        <b className="block text-lg">{timeAt(Date.parse(visit.startsAt), utcOffsetMinutes)}</b>
        <span className="text-sm text-soft">to {timeAt(Date.parse(visit.endsAt), utcOffsetMinutes)}</span>
      </span>
      <span className="min-w-0 flex-1">
        <b className="block text-lg leading-tight">{fullKitchenName(visit.kitchen)}</b>
        <span className="block text-soft">{visit.kitchen.address}</span>
        <span className="text-sm text-soft">
          {counted(units, 'unit')}, {counted(visit.tasks.length, 'task')}
        </span>
        {jobs.map((j) => (
          <span key={j.id} className="block font-bold">
            {j.urgency === 'now' || j.urgency === 'today' ? <span className="text-alarm">{JOB_URGENCY_LABEL[j.urgency]}. </span> : null}
            {j.what}
          </span>
        ))}
      </span>
      <span className="shrink-0 text-sm">
        <VisitState visit={visit} />
      </span>
    </a>
  );
}
