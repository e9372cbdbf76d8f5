import { describeRule, type LocalDate } from '@/lib/core/calendar';
import { State, type Shape } from '../../../../_ui/state';
import { dayIn, dayWords, yearIn } from '@/lib/core/calendar/when';
import { ReviewForm } from './review-form';

type Change = {
  id: string;
  at: number;
  kind: string;
  fromRule: string;
  toRule: string;
  fromDueOn: LocalDate | null;
  toDueOn: LocalDate | null;
  reason: string;
  by: string | null;
  review: string | null;
};

const KIND: Record<string, { words: string; shape: Shape }> = {
  evidence: { words: 'By the findings', shape: 'now' },
  held: { words: 'Held back', shape: 'held' },
  overruled: { words: 'Overruled', shape: 'ask' },
  locked: { words: 'Locked', shape: 'held' },
  unlocked: { words: 'Unlocked', shape: 'later' },
  edited: { words: 'Changed by hand', shape: 'done' },
  ended: { words: 'Ended', shape: 'off' },
};

/** What a task's rule was, what it became and why; newest first. The old rule is never lost. */
export function RuleHistory({ changes, timeZone, mayReview }: { changes: Change[]; timeZone: string; mayReview: boolean }) {
  if (changes.length === 0) return <p className="text-sm text-soft">The rule has not changed since it was put on file.</p>;
  return (
    <ol className="flex flex-col gap-3 border-l-2 border-line pl-4">
      {changes.map((c) => {
        const kind = KIND[c.kind] ?? { words: c.kind, shape: 'later' as const };
        return (
          <li key={c.id}>
            <p className="flex flex-wrap items-baseline gap-x-3">
              <State shape={kind.shape}>{kind.words}</State>
              <span className="text-sm text-soft">
                {dayIn(c.at, timeZone)} {yearIn(c.at, timeZone)}
                {c.by ? `, ${c.by}` : ''}
                {c.review ? `, ${c.review} by the owner` : ''}
              </span>
            </p>
            <p className="max-w-[75ch]">{c.reason}</p>
            <p className="text-sm text-soft">
              {c.fromRule === c.toRule ? describeRule(c.toRule) : `${describeRule(c.fromRule)} → ${describeRule(c.toRule)}`}
              {c.toDueOn && c.fromDueOn !== c.toDueOn
                ? `; due ${c.fromDueOn ? `${dayWords(c.fromDueOn)} → ` : ''}${dayWords(c.toDueOn)}`
                : ''}
            </p>
            {mayReview && c.kind === 'evidence' && !c.review ? <ReviewForm changeId={c.id} backTo={describeRule(c.fromRule)} /> : null}
          </li>
        );
      })}
    </ol>
  );
}
