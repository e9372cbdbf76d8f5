import { labelOf } from '@/lib/core/typed/closed-set';
import Link from 'next/link';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { QuestionedEntry } from '@/lib/core/entries/questioned-entry';
import { ENTRY_LABEL } from '@/lib/core/tablet';
import { State } from '@/app/_ui/states/state';
import { dayIn, momentIn } from '@/lib/core/calendar/when';
import { EntryTyped } from './entry-typed';
import { Settled } from './settled';
import { SettleForm } from './settle-form';

/** One entry that was not simply filed: what the office answered, what was typed, and what came of it. `place` is left out on its visit's own page. */
export function EntryQuestion({
  entry: e,
  units,
  may,
  place = true,
}: {
  entry: QuestionedEntry;
  units: MeasureUnits;
  /** Whether the reader may say that it was looked at. */
  may: boolean;
  place?: boolean;
}) {
  const when = (ms: number) => momentIn(ms, e.timeZone);
  const heading = `entry-${e.id}`;
  const sameDay = dayIn(e.madeAt, e.timeZone) === dayIn(e.receivedAt, e.timeZone);
  return (
    <li aria-labelledby={heading} className="flex flex-col gap-2 border-b border-line py-4 first:pt-0 last:border-0 last:pb-0">
      <div>
        <h3 id={heading}>
          <State shape={e.outcome === 'rejected' ? 'late' : 'ask'} tone={e.settled ? 'soft' : 'alarm'}>
            {labelOf(ENTRY_LABEL, e.kind)}: {e.outcome === 'rejected' ? 'could not be filed' : 'filed with a question'}
          </State>
        </h3>
        {place ? (
          <Place entry={e} />
        ) : e.unit ? (
          <Link href={`/units/${e.unit.id}`} className={LINK}>
            {e.unit.name}
          </Link>
        ) : null}
        <p className="max-w-[75ch]">{e.note}</p>
        <p className="text-sm text-soft">
          Written by {e.by}, {when(e.madeAt)}, {e.device}
          {sameDay ? '' : `; came in ${when(e.receivedAt)}`}
        </p>
      </div>
      <EntryTyped entry={e} units={units} fileId={may ? e.fileId : null} />
      {e.settled ? <Settled settled={e.settled} timeZone={e.timeZone} /> : may ? <SettleForm entryId={e.id} about={heading} /> : null}
    </li>
  );
}

const LINK = 'inline-flex min-h-11 items-center underline';

function Place({ entry: { kitchen, visit, unit, timeZone } }: { entry: QuestionedEntry }) {
  const links = [
    ...(kitchen
      ? [
          [`/customers/${kitchen.customer.id}`, kitchen.customer.name],
          [`/kitchens/${kitchen.id}`, kitchen.name],
        ]
      : []),
    ...(unit ? [[`/units/${unit.id}`, unit.name]] : []),
    ...(visit ? [[`/visits/${visit.id}`, `Visit of ${dayIn(visit.startsAt, timeZone)}`]] : []),
  ] as [href: string, label: string][];
  return (
    <p className="flex flex-wrap items-center gap-x-4">
      {links.map(([href, label]) => (
        <Link key={href} href={href} className={LINK}>
          {label}
        </Link>
      ))}
      {visit ? null : <span className="text-soft">Its visit is not on file.</span>}
      {kitchen ? null : <span className="text-soft">Nor is its kitchen known.</span>}
    </p>
  );
}
