import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { counted } from '@/lib/core/wording/counted';
import { State } from './state';
import { dayWords } from '@/lib/core/calendar/when';

/** When something is due, as a word with a shape: overdue by how much, today, or the day it falls on. */
export function DueState({ dueOn, today, limit }: { dueOn: LocalDate; today: LocalDate; limit?: number }) {
  const late = daysBetween(dueOn, today);
  if (late > 0)
    return (
      <State shape="late" tone={limit !== undefined && late > limit ? 'alarm' : 'ink'}>
        {counted(late, 'day')} over
      </State>
    );
  if (late === 0)
    return (
      <State shape="now" tone="cold">
        today
      </State>
    );
  return (
    <State shape="later" tone="soft">
      {dayWords(dueOn)}
      {late < -300 ? ` ${dueOn.slice(0, 4)}` : ''}
    </State>
  );
}
