import type { QuestionedEntry } from '@/lib/core/entries/questioned-entry';
import { State } from '@/app/_ui/states/state';
import { momentIn } from '@/lib/core/calendar/when';

/** Who looked at an entry, when, and what came of it. */
export function Settled({ settled, timeZone }: { settled: NonNullable<QuestionedEntry['settled']>; timeZone: string }) {
  return (
    <p>
      <State shape="done" tone="cold">
        Looked at
      </State>{' '}
      by {settled.by}, {momentIn(settled.at, timeZone)}
      {settled.note ? `: ${settled.note}` : ''}
    </p>
  );
}
