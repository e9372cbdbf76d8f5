import Link from 'next/link';
import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { counted } from '@/lib/core/wording/counted';
import { State } from '../../../_ui/state';
import { dayWords } from '@/lib/core/calendar/when';

type Row = { kitchenId: string; kitchen: string; customer: string; tasks: number; soonest: LocalDate };

export function Unbooked({ kitchens, total, today }: { kitchens: Row[]; total: number; today: LocalDate }) {
  return (
    <aside aria-labelledby="unbooked" className="rounded-lg border border-line bg-sunk p-4">
      <h2 id="unbooked">Due, not booked</h2>
      {kitchens.length === 0 ? <p className="mt-2 text-soft">Everything due by the end of this week is booked.</p> : null}
      <ul className="mt-2 flex flex-col">
        {kitchens.map((k) => {
          const late = daysBetween(k.soonest, today);
          return (
            <li key={k.kitchenId} className="border-b border-line py-2 last:border-0">
              <Link href={`/week/book?kitchen=${k.kitchenId}`} className="font-bold">
                {k.kitchen}
              </Link>
              <p className="text-sm text-soft">
                {k.customer} · {counted(k.tasks, 'task')}
              </p>
              <p className="text-sm">
                {late > 0 ? (
                  <State shape="late" tone="alarm">
                    {counted(late, 'day')} overdue
                  </State>
                ) : (
                  <State shape="now">Due {dayWords(k.soonest)}</State>
                )}
              </p>
            </li>
          );
        })}
      </ul>
      {total > kitchens.length ? (
        <p className="mt-2">
          <Link href="/due">and {total - kitchens.length} more</Link>
        </p>
      ) : null}
    </aside>
  );
}
