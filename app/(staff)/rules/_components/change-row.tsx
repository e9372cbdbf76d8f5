import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import Link from 'next/link';
import { approximateWeeks, describeRule } from '@/lib/core/calendar';
import { State, type Shape } from '@/app/_ui/states/state';
import { dayWords } from '@/lib/core/calendar/when';
import { RULE_CHANGE_LABEL, RULE_REVIEW_LABEL, type RuleChangeKind, type RuleReview } from '@/lib/core/intervals/changes';
import { RULE_CHANGE_SHAPE } from '@/app/_ui/states/rule-change';
import { fromTo } from '@/app/_ui/words/rule-words';
import { ReviewForm } from '../../units/[id]/_components/review-form';
import { LockRule } from './lock-rule';

export type ChangeShown = {
  id: string; kind: RuleChangeKind; fromRule: string; toRule: string; fromDueOn: string | null; toDueOn: string | null; reason: string; by: string | null; visitId: string | null; review: RuleReview | null; reviewedBy: string | null;
  task: { id: string; kind: string; version: number; locked: boolean; rule: string; booked: boolean };
  unit: { id: string; name: string };
  kitchen: { id: string; name: string; customer: string };
}; // prettier-ignore

/** What happened, in a word with a shape; of what the findings changed: tighter or looser. */
function direction(c: ChangeShown): { words: string; shape: Shape } {
  if (c.kind !== 'evidence') return { words: RULE_CHANGE_LABEL[c.kind], shape: RULE_CHANGE_SHAPE[c.kind] };
  return approximateWeeks(c.toRule) < approximateWeeks(c.fromRule)
    ? { words: 'More often', shape: 'late' }
    : { words: 'Less often', shape: 'later' };
}

/** Who was there, what became of the change, and whether it still stands. */
function about(c: ChangeShown): string {
  return [
    c.by ? `After ${c.by}’s visit.` : '',
    c.review ? `${RULE_REVIEW_LABEL[c.review]}${c.reviewedBy ? ` by ${c.reviewedBy}` : ''}.` : '',
    c.task.rule !== c.toRule && c.kind === 'evidence' ? `The rule has changed again since: ${describeRule(c.task.rule)}.` : '',
    c.task.booked ? 'It stands on an open visit.' : '',
  ]
    .filter(Boolean)
    .join(' ');
}

export function ChangeRow({ change: c, mayDecide, aside = '' }: { change: ChangeShown; mayDecide: boolean; aside?: string }) {
  const { words, shape } = direction(c);
  const open = c.kind === 'evidence' && c.review === null;
  return (
    <li className="grid grid-cols-1 gap-x-6 gap-y-1 border-b border-line py-4 first:pt-0 last:border-0 last:pb-0 lg:grid-cols-[15rem_minmax(0,1fr)_17rem]">
      <div>
        <Link href={`/units/${c.unit.id}#evidence`} className="font-bold">
          {c.unit.name}
        </Link>
        <div className="text-sm text-soft">{fullKitchenName(c.kitchen)}</div>
        <div className="text-sm">{c.task.kind}</div>
      </div>
      <div>
        <p className="max-w-[75ch]">{c.reason}</p>
        <p className="text-sm text-soft">
          {aside ? <b>{aside} </b> : null}
          {about(c)}
        </p>
      </div>
      <div>
        <State shape={shape} tone={words === 'More often' ? 'alarm' : 'ink'}>
          {words}
        </State>
        <div className="text-lg font-bold">{fromTo(c.fromRule, c.toRule)}</div>
        {c.toDueOn && c.fromDueOn !== c.toDueOn ? (
          <div className="text-sm text-soft">
            due {c.fromDueOn ? `${dayWords(c.fromDueOn)} → ` : ''}
            {dayWords(c.toDueOn)}
          </div>
        ) : null}
        {c.task.locked ? (
          <State shape="held" tone="soft">
            rule is locked
          </State>
        ) : null}
      </div>
      {mayDecide && open ? (
        <div className="flex flex-wrap items-start gap-x-4 lg:col-start-2 lg:col-end-4">
          <ReviewForm changeId={c.id} backTo={describeRule(c.fromRule)} />
          {!c.task.locked ? <LockRule taskId={c.task.id} version={c.task.version} /> : null}
        </div>
      ) : null}
    </li>
  );
}
