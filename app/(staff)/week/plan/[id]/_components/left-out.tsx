import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import type { ReasonCode } from '@/lib/core/planning';
import type { LeftOver } from '@/lib/core/planning/proposal';
import { Sheet } from '@/app/_ui/page/sheet';

/** What one cause is called where it holds for many kitchens. */
const CAUSE: Partial<Record<ReasonCode, string>> = {
  full: 'Nobody has time left while the kitchen is open to us',
  dearer: 'There is room, but the trip would cost more than waiting a week',
  too_far: 'Too far to drive, work and be back in a shift',
  no_skill: 'Nobody is on file for it',
  skill_off: 'Who could do it is off this week',
  no_shift: 'Nobody works on these days',
  no_hours: 'The kitchen has no hours for us on these days',
  hours_too_short: 'The work is longer than the kitchen’s hours for us',
  hours_never_meet: 'The kitchen is never open to us while anyone who could go works',
  fixed_clash: 'Its booked visit overlaps another of the same technician',
};
const SHOWN = 12;

/** Due work that found no place, by cause; kitchens under each, the sentence of the first with it. */
export function LeftOut({ left, beyond }: { left: LeftOver[]; beyond: { kitchens: number; tasks: number } }) {
  if (left.length === 0 && beyond.tasks === 0) return null;
  const causes = new Map<string, LeftOver[]>();
  for (const l of left) {
    const message = CAUSE[l.code] ?? l.message;
    causes.set(message, [...(causes.get(message) ?? []), l]);
  }
  return (
    <Sheet title="Due, and not in this week">
      <ul>
        {[...causes].map(([message, rows]) => {
          const kitchens = [...new Map(rows.map((r) => [r.kitchenId, r.kitchen]))];
          return (
            <li key={message} className="border-b border-line py-2 last:border-0">
              <details>
                <summary>
                  <span className="font-bold">{message}</span>: {counted(rows.length, 'task')} in {counted(kitchens.length, 'kitchen')}
                </summary>
                <ul className="mt-2 pl-5">
                  {kitchens.slice(0, SHOWN).map(([id, name]) => (
                    <li key={id} className="py-1">
                      <Link href={`/kitchens/${id}`}>{name}</Link>, {counted(rows.filter((r) => r.kitchenId === id).length, 'task')}
                      <span className="block text-sm text-soft">{rows.find((r) => r.kitchenId === id)?.message}</span>
                    </li>
                  ))}
                  {kitchens.length > SHOWN ? <li className="text-soft">and {kitchens.length - SHOWN} more</li> : null}
                </ul>
              </details>
            </li>
          );
        })}
        {beyond.tasks > 0 ? (
          <li className="py-2">
            <span className="font-bold">Waits its turn</span>: {counted(beyond.tasks, 'task')} at kitchens that were due later. The kitchens
            that have waited longest were planned first. Accept what is proposed and propose the week again for the others, or see{' '}
            <Link href="/due">all that is due</Link>.
          </li>
        ) : null}
      </ul>
    </Sheet>
  );
}
