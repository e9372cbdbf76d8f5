import { labelOf } from '@/lib/core/typed/closed-set';
import Link from 'next/link';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { QuestionedEntry } from '@/lib/core/entries/questioned-entry';
import { ENTRY_LABEL } from '@/lib/core/tablet';
import { EntryQuestion } from '@/app/(staff)/entries/_components/entry-question';
import { Settled } from '@/app/(staff)/entries/_components/settled';
import { Sheet } from '@/app/_ui/page/sheet';

/** Entries that met with something in the office: both sides are kept, and a person decides. Those looked at stay as a line. */
export function Questions({ entries, units, may }: { entries: QuestionedEntry[]; units: MeasureUnits; may: boolean }) {
  const open = entries.filter((e) => e.settled === null);
  const settled = entries.filter((e) => e.settled !== null);
  return (
    <>
      {open.length > 0 ? (
        <Sheet
          title="To look at"
          className="border-2 border-alarm"
          aside={
            may ? (
              <Link href="/entries" className="inline-flex min-h-11 items-center underline">
                All that wait
              </Link>
            ) : undefined
          }
        >
          <ul className="flex flex-col">
            {open.map((e) => (
              <EntryQuestion key={e.id} entry={e} units={units} may={may} place={false} />
            ))}
          </ul>
        </Sheet>
      ) : null}
      {settled.length > 0 ? (
        <Sheet title="Looked at">
          <ul className="flex flex-col gap-2">
            {settled.map((e) => (
              <li key={e.id}>
                <b>{labelOf(ENTRY_LABEL, e.kind)}</b>
                {e.unit ? `, ${e.unit.name}` : ''}: {e.note}
                {e.settled ? <Settled settled={e.settled} timeZone={e.timeZone} /> : null}
              </li>
            ))}
          </ul>
        </Sheet>
      ) : null}
    </>
  );
}
