import Link from 'next/link';
import { describeRule, type Anchor, type LocalDate } from '@/lib/core/calendar';
import { DueState } from '@/app/_ui/states/due-state';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { dayDateWords, momentIn } from '@/lib/core/calendar/when';
import { RuleHistory } from './rule-history';
import { AddTaskForm, EditRuleForm, LockForm, TakeTaskOffForm, type TaskToChange } from './task-forms';

type Change = Parameters<typeof RuleHistory>[0]['changes'][number];
type Task = TaskToChange & {
  kindKey: string;
  anchor: Anchor;
  dueOn: LocalDate;
  active: boolean;
  onVisit: { id: string; startsAt: number } | null;
  changes: Change[];
};
type Props = {
  unitId: string;
  tasks: Task[];
  kinds: { key: string; label: string }[];
  today: LocalDate;
  timeZone: string;
  limit: number;
  mayWrite: boolean;
  mayReview: boolean;
};

/** The unit's tasks: what each one's rule is, when it is due, and how the rule came to be. */
export function Tasks({ unitId, tasks, kinds, today, timeZone, limit, mayWrite, mayReview }: Props) {
  const active = tasks.filter((t) => t.active);
  const ended = tasks.filter((t) => !t.active && t.changes[0]?.kind === 'ended');
  const has = new Set(active.map((t) => t.kindKey));
  return (
    <Sheet title="Tasks">
      {active.length === 0 ? <p className="mb-3 text-soft">No task comes due for this unit.</p> : null}
      <ul className="flex flex-col">
        {active.map((t) => (
          <li key={t.id} className="border-b border-line py-2.5 first:pt-0">
            <div className="flex flex-wrap items-baseline gap-x-6 gap-y-1">
              <h3 className="min-w-48">{t.label}</h3>
              <span className="min-w-56">{describeRule(t.rule)}</span>
              <DueState dueOn={t.dueOn} today={today} limit={limit} />
              {t.onVisit ? <Link href={`/week/${t.onVisit.id}`}>booked {momentIn(t.onVisit.startsAt, timeZone)}</Link> : null}
              {t.locked ? (
                <State shape="held" tone="soft">
                  locked
                </State>
              ) : null}
            </div>
            <div className="flex flex-wrap items-start gap-x-5">
              <details className="open:w-full">
                <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">
                  History{t.changes.length > 0 ? ` (${t.changes.length})` : ''}
                </summary>
                <div className="my-2 flex flex-col gap-2">
                  <p className="text-sm text-soft">
                    {t.lastDoneOn ? `Last done ${dayDateWords(t.lastDoneOn)}` : 'Not done by us yet'}, counted from{' '}
                    {t.anchor === 'calendar' ? 'the calendar' : 'the last visit'}, between {t.minWeeks} and {t.maxWeeks} weeks.
                  </p>
                  <RuleHistory changes={t.changes} timeZone={timeZone} mayReview={mayReview} />
                </div>
              </details>
              {mayWrite ? (
                <>
                  <EditRuleForm task={t} />
                  <LockForm task={t} />
                  <TakeTaskOffForm task={t} />
                </>
              ) : null}
            </div>
          </li>
        ))}
      </ul>
      {ended.map((t) => (
        <p key={t.id} className="mt-3 max-w-[75ch] text-soft">
          <b className="text-ink">{t.label}</b>
          {t.lastDoneOn ? `, last done ${dayDateWords(t.lastDoneOn)}` : ''}. {t.changes[0]?.reason}
        </p>
      ))}
      {mayWrite ? (
        <div className="mt-3">
          <AddTaskForm unitId={unitId} kinds={kinds.filter((k) => !has.has(k.key))} />
        </div>
      ) : null}
    </Sheet>
  );
}
