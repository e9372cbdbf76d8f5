import Link from 'next/link';
import { JOB_STATE_LABEL, JOB_URGENCY_LABEL, type JobSource, type JobState, type JobUrgency } from '@/lib/core/jobs';
import { money } from '@/lib/core/measures/figures';
import { dateWords, dayIn, dayWords, momentIn } from '@/lib/core/calendar/when';
import { State } from '@/app/_ui/states/state';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export type Line = {
  id: string;
  number: number;
  what: string;
  state: JobState;
  urgency: JobUrgency;
  source: JobSource;
  dueOn: string | null;
  createdAt: number;
  timeAsked: string;
  kitchen: { id: string; name: string; timeZone: string; customer: { name: string } };
  units: { id: string; name: string }[];
  visit: { id: string; startsAt: number; technician: string } | null;
  quote: { totalCents: number; currency: string; validUntil: string } | null;
};

/** Jobs one below the other: what, where, how urgent, and what the next move is about. */
export function JobLines({ lines, place = true }: { lines: readonly Line[]; place?: boolean }) {
  return (
    <ul>
      {lines.map((j) => (
        <li key={j.id} className="flex flex-wrap items-baseline justify-between gap-x-6 gap-y-1 border-b border-line py-2 last:border-0">
          <span className="min-w-0 flex-1 basis-56">
            <Link href={`/jobs/${j.id}`} className="font-bold">
              {j.number}. {j.what}
            </Link>
            <span className="block text-soft">
              {[place ? fullKitchenName(j.kitchen) : '', j.units.map((u) => u.name).join(', ')].filter(Boolean).join(' · ')}
            </span>
          </span>
          <span className="flex flex-col items-start sm:max-w-72 sm:items-end sm:text-right">
            <Urgency urgency={j.urgency} />
            {j.source === 'customer' && j.state === 'asked' ? (
              <span className="text-sm font-bold">Asked on their own page: ring them</span>
            ) : null}
            {j.timeAsked ? <span className="text-sm font-bold">They ask for: {j.timeAsked}</span> : null}
            <span className="text-sm text-soft">{about(j)}</span>
          </span>
        </li>
      ))}
    </ul>
  );
}

export const Urgency = ({ urgency }: { urgency: JobUrgency }) =>
  urgency === 'now' || urgency === 'today' ? (
    <State shape="late" tone="alarm">
      {JOB_URGENCY_LABEL[urgency]}
    </State>
  ) : (
    <State shape={urgency === 'week' ? 'now' : 'later'} tone="soft">
      {JOB_URGENCY_LABEL[urgency]}
    </State>
  );

function about({ state, visit, quote, dueOn, createdAt, kitchen }: Line): string {
  if (visit) return `${momentIn(visit.startsAt, kitchen.timeZone)}, ${visit.technician}`;
  if (state === 'quoted' && quote) return `${money(quote.totalCents, quote.currency)}, valid until ${dateWords(quote.validUntil)}`;
  const by = dueOn ? `by ${dayWords(dueOn)}, ` : '';
  return `${JOB_STATE_LABEL[state]}, ${by}since ${dayIn(createdAt, kitchen.timeZone)}`;
}
