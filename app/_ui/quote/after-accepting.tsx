import { customerDay, customerTime } from '@/lib/core/calendar/when';
import { wordsIn, type Language } from '@/lib/core/customer-words';
import type { FormAction } from '../forms/use-action-form';
import { State } from '../states/state';
import { TimeForm } from './time-form';

type Next =
  | { step: 'booked'; startsAt: Date; endsAt: Date; technician: string }
  | { step: 'choose'; times: readonly { start: number; end: number }[]; asked: string }
  | { step: 'part' | 'office' };
type Props = { next: Next; timeZone: string; language: Language; action: FormAction<void>; hidden: Record<string, string> };

/** Where an accepted quote stands: the times offered, the time that was booked, or what it waits for. */
export function AfterAccepting({ next, timeZone, language, action, hidden }: Props) {
  const say = wordsIn(language).quote.time;
  const { line, who } = wordsIn(language).yours.visits;
  const when = (start: number | Date, end: number | Date) =>
    line(customerDay(start, timeZone, language), customerTime(start, timeZone, language), customerTime(end, timeZone, language));
  switch (next.step) {
    case 'booked':
      return (
        <p className="text-lg">
          <State shape="done" tone="cold">
            <span className="whitespace-normal">{say.booked(when(next.startsAt, next.endsAt))}</span>
          </State>{' '}
          {who(next.technician)}
        </p>
      );
    case 'choose':
      return (
        <TimeForm
          action={action}
          hidden={hidden}
          language={language}
          times={next.times.map((t) => ({ value: String(t.start), label: when(t.start, t.end) }))}
          asked={next.asked}
        />
      );
    case 'part':
    case 'office':
      return <p className="text-lg">{say[next.step]}</p>;
  }
}
