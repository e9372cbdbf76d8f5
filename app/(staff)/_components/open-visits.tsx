import type { ReactNode } from 'react';
import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { State } from '@/app/_ui/states/state';
import { momentIn } from '@/lib/core/calendar/when';

type Visit = { id: string; startsAt: number; started: boolean; technician: string; kitchen: string; customer: string; timeZone: string };
export type OpenVisits = { visits: Visit[]; total: number };

type LineProps = { visit: { id: string; kitchen: string; customer: string }; children: ReactNode };

/** A visit by its kitchen, with what is to be said of it. */
export const VisitLine = ({ visit: { id, kitchen, customer }, children }: LineProps) => (
  <li className="break-inside-avoid border-b border-line py-2 last:border-0">
    <Link href={`/week/${id}`} className="font-bold">
      {kitchen}
    </Link>
    {kitchen === customer ? null : <p className="text-sm text-soft">{customer}</p>}
    <p className="text-sm">{children}</p>
  </li>
);

/** Visits that somebody has to do something about, in as many columns as there is room for; how many are not shown is said. */
export function OpenVisitList({ visits, total }: OpenVisits) {
  return (
    <>
      <ul className="mt-2 columns-3xs gap-8">
        {visits.map((v) => (
          <VisitLine key={v.id} visit={v}>
            {momentIn(v.startsAt, v.timeZone)}, {v.technician}
            {v.started ? ', started' : ''}
          </VisitLine>
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
