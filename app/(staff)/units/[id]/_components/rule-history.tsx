import { describeRule, type LocalDate } from '@/lib/core/calendar';
import { RULE_CHANGE_LABEL, RULE_REVIEW_LABEL, type RuleChangeKind, type RuleReview } from '@/lib/core/intervals/changes';
import { RULE_CHANGE_SHAPE } from '@/app/_ui/states/rule-change';
import { State } from '@/app/_ui/states/state';
import { dayDateIn, dayWords } from '@/lib/core/calendar/when';
import { ReviewForm } from './review-form';

type Change = {
  id: string;
  at: number;
  kind: RuleChangeKind;
  fromRule: string;
  toRule: string;
  fromDueOn: LocalDate | null;
  toDueOn: LocalDate | null;
  reason: string;
  by: string | null;
  review: RuleReview | null;
};

/** What a task's rule was, what it became and why; newest first. The old rule is never lost. */
export function RuleHistory({ changes, timeZone, mayReview }: { changes: Change[]; timeZone: string; mayReview: boolean }) {
  if (changes.length === 0) return <p className="text-sm text-soft">The rule has not changed since it was put on file.</p>;
  return (
    <ol className="flex flex-col gap-3 border-l-2 border-line pl-4">
      {changes.map((c) => {
        return (
          <li key={c.id}>
            <p className="flex flex-wrap items-baseline gap-x-3">
              <State shape={RULE_CHANGE_SHAPE[c.kind]}>{RULE_CHANGE_LABEL[c.kind]}</State>
              <span className="text-sm text-soft">
                {dayDateIn(c.at, timeZone)}
                {c.by ? `, ${c.by}` : ''}
                {c.review ? `, ${RULE_REVIEW_LABEL[c.review].toLowerCase()} by the owner` : ''}
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
