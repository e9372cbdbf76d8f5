import { short } from '@/lib/core/measures/figures';
import { Figure } from '@/app/_ui/figures/figure';
import { moneyIn } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import type { Replay, ReplaySum } from '@/lib/core/owner/replay';

export type Past = { asked: Replay; calendar: ReplaySum; calendarWeeks: number };

const LINES: readonly (readonly [string, (s: ReplaySum) => number])[] = [
  ['Cleanings', (s) => s.cleanings],
  ['Breakdowns expected', (s) => s.breakdowns],
  ['Coils expected to be found packed', (s) => s.comebacks],
];

/** The shop's own last year gone through again: as it was, by the asked settings, and by the calendar. */
export function PastAgain({ of, currency }: { of: Past | null; currency: string }) {
  if (!of)
    return (
      <>
        <h3 className="mt-4">Last year, gone through again</h3>
        <p className="text-soft">It takes coils that were cleaned twice within a year.</p>
      </>
    );
  const { asked, calendar, calendarWeeks } = of;
  const { value, lo, hi, level } = asked.spared.money;
  // Kept as what the past spares; asked for here is what the settings would have changed.
  const saved = { value: -value, lo: -hi, hi: -lo, level };
  return (
    <>
      <h3 className="mt-4">Last year, gone through again</h3>
      <Table label="Last year, gone through again">
        <thead>
          <tr>
            <Th>{asked.coils} coils cleaned twice or more</Th>
            <Th className="text-right">As it was</Th>
            <Th className="text-right">These settings</Th>
            <Th className="text-right">Every {calendarWeeks} weeks</Th>
          </tr>
        </thead>
        <tbody>
          {[...LINES, [`All of it, ${currency}`, (s: ReplaySum) => s.money] as const].map(([label, of]) => (
            <tr key={label}>
              <Td>{label}</Td>
              <Td className="text-right">{short(of(asked.plan))}</Td>
              <Td className="text-right font-bold">{short(of(asked.calendar))}</Td>
              <Td className="text-right">{short(of(calendar))}</Td>
            </tr>
          ))}
        </tbody>
      </Table>
      <p className="mt-2">
        These settings instead of what was done: <Figure of={saved} scale={moneyIn(currency)} /> in the year
        {saved.lo > 0 ? ' more.' : saved.hi < 0 ? ' (less).' : ', so nobody can tell which costs less.'}
      </p>
      <p className="text-sm text-soft">
        The days between each coil’s cleanings once more, in the intervals at which the settings would settle, by what is believed of the
        coil today and at the prices on the left. Bands: what is not known of each rate, and luck.
      </p>
    </>
  );
}
