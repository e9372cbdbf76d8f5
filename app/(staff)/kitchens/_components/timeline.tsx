import Link from 'next/link';
import { daysBetween, todayIn, type LocalDate } from '@/lib/core/calendar';
import { dayDateIn, momentIn } from '@/lib/core/calendar/when';
import type { Happened, KitchenTimeline } from '@/lib/core/visits/happened';
import { counted } from '@/lib/core/wording/counted';
import { Sheet } from '@/app/_ui/page/sheet';
import { State, type Shape } from '@/app/_ui/states/state';

type Props = { line: KitchenTimeline; timeZone: string; today: LocalDate };

const SHAPE: Record<Happened['kind'], Shape> = { visit: 'done', mail: 'later', job: 'ask', rule: 'done' };
const FIRST = 6;

const ago = (at: number, timeZone: string, today: LocalDate) => {
  const days = daysBetween(todayIn(timeZone, at), today);
  return days === 0 ? 'today' : days === 1 ? 'yesterday' : `${counted(days, 'day')} ago`;
};

/** "When were you last here, and what did you find?", answered at the top of a kitchen's page. */
export function LastAndNext({ line: { last, next }, timeZone, today }: Props) {
  return (
    <dl className="grid grid-cols-1 gap-x-8 gap-y-3 rounded-lg border-2 border-edge bg-sheet p-4 sm:grid-cols-2 sm:p-5">
      <div>
        <dt className="text-sm text-soft">Last here</dt>
        <dd>
          {last ? (
            <>
              <Link href={`/visits/${last.id}`} className="font-bold">
                {dayDateIn(last.at, timeZone)}
              </Link>
              , {ago(last.at, timeZone, today)}, {last.technician}
              <span className="block">{last.found.length > 0 ? `Found ${last.found.join('; ')}.` : 'Found nothing out of order.'}</span>
              {last.left.length > 0 ? (
                <State shape="late" tone="alarm">
                  <span className="whitespace-normal">Left so: {last.left.join('; ')}</span>
                </State>
              ) : null}
            </>
          ) : (
            'Never yet.'
          )}
        </dd>
      </div>
      <div>
        <dt className="text-sm text-soft">Next visit</dt>
        <dd>
          {next ? (
            <>
              <Link href={`/week/${next.id}`} className="font-bold">
                {momentIn(next.at, timeZone)}
              </Link>
              , {next.technician}
            </>
          ) : (
            'None booked.'
          )}
        </dd>
      </div>
    </dl>
  );
}

/** Visits, mails, jobs and calls on one line of time, newest first; the older ones behind a fold. */
export function Timeline({ line, timeZone, opensJobs }: Omit<Props, 'today'> & { opensJobs: boolean }) {
  const happened = line.happened.map((h) => (h.kind === 'job' && !opensJobs ? { ...h, href: null } : h));
  const older = happened.slice(FIRST);
  return (
    <Sheet title="What happened here">
      {happened.length === 0 ? (
        <p className="text-soft">Visits with what was found, jobs, calls and mails will stand here, the newest first.</p>
      ) : null}
      <Items of={happened.slice(0, FIRST)} timeZone={timeZone} />
      {older.length > 0 ? (
        <details className="mt-2">
          <summary className="font-bold text-cold">{counted(older.length, 'earlier thing')}</summary>
          <Items of={older} timeZone={timeZone} />
        </details>
      ) : null}
    </Sheet>
  );
}

function Items({ of, timeZone }: { of: Happened[]; timeZone: string }) {
  return (
    <ol className="flex flex-col">
      {of.map((h) => (
        <li key={h.id} className="grid grid-cols-1 gap-x-4 border-b border-line py-2 last:border-0 sm:grid-cols-[8.5rem_minmax(0,1fr)]">
          <span className="text-soft">{dayDateIn(h.at, timeZone)}</span>
          <div>
            <State shape={SHAPE[h.kind]} tone={h.alarm ? 'alarm' : 'ink'}>
              {h.href ? <Link href={h.href}>{h.head}</Link> : h.head}
            </State>
            {h.lines.map((l) => (
              <span key={l} className="block text-sm">
                {l}
              </span>
            ))}
          </div>
        </li>
      ))}
    </ol>
  );
}
