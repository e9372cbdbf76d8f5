import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { State } from '@/app/_ui/states/state';
import { momentIn } from '@/lib/core/calendar/when';

type Visit = { id: string; startsAt: number; started: boolean; technician: string; kitchen: string; customer: string; timeZone: string };
export type OpenVisits = { visits: Visit[]; total: number };

/** Visits that somebody has to do something about; how many are not shown is said. */
export function OpenVisitList({ visits, total }: OpenVisits) {
  return (
    <>
      <ul className="mt-2 flex flex-col">
        {visits.map((v) => (
          <li key={v.id} className="border-b border-line py-2 last:border-0">
            <Link href={`/week/${v.id}`} className="font-bold">
              {v.kitchen}
            </Link>
            {v.kitchen === v.customer ? null : <p className="text-sm text-soft">{v.customer}</p>}
            <p className="text-sm">
              {momentIn(v.startsAt, v.timeZone)}, {v.technician}
              {v.started ? ', started' : ''}
            </p>
          </li>
        ))}
      </ul>
      {total > visits.length ? <p className="mt-2 text-sm text-soft">and {total - visits.length} more</p> : null}
    </>
  );
}

/** After days were entered on which nothing should be booked: what is booked on them all the same. */
export function BookedOnThem({ found }: { found: OpenVisits | undefined }) {
  return (
    <div role="status">
      {found ? (
        <State shape={found.total > 0 ? 'late' : 'done'} tone={found.total > 0 ? 'alarm' : 'cold'}>
          {found.total > 0
            ? `${counted(found.total, 'visit is', 'visits are')} booked on these days`
            : 'Saved. Nothing is booked on these days.'}
        </State>
      ) : null}
      {found && found.total > 0 ? <OpenVisitList {...found} /> : null}
    </div>
  );
}
