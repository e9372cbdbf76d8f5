import { short } from '@/lib/core/measures/figures';
import type { ReactNode } from 'react';
import { Figure } from '@/app/_ui/figures/figure';
import { moneyIn, type Scale } from '@/app/_ui/figures/measure';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { momentIn } from '@/lib/core/calendar/when';
import type { Replay } from '@/lib/core/owner/replay';

type OnFile = { replay: Replay | null; sampled: number; currency: string; from: string; to: string; calendarWeeks: number; at: Date };

const COUNT: Scale = { unit: '', of: (x) => x, decimals: 1, most: 1 };
const round = (x: number) => short(x).replace('-', '−');
/** Three digits of a sum: more than what is believed of a coil can tell. */
const sum = (x: number) => round(Number(x.toPrecision(3)));

const IN_MONEY = 'All of it in money, energy too';

type Row = { what: string; was: string; by: string; spared: ReactNode };

function rowsOf({ plan, calendar, spared }: Replay, currency: string): Row[] {
  return [
    {
      what: 'Breakdowns expected, each a box of food at risk',
      was: round(plan.breakdowns),
      by: round(calendar.breakdowns),
      spared: <Figure of={spared.breakdowns} scale={COUNT} />,
    },
    {
      what: 'Coils found packed, each a visit more',
      was: round(plan.comebacks),
      by: round(calendar.comebacks),
      spared: <Figure of={spared.comebacks} scale={COUNT} />,
    },
    {
      what: `Hours of cleaning (${round(plan.cleanings)} cleanings, ${round(calendar.cleanings)} by the calendar)`,
      was: `${round(plan.hours)} h`,
      by: `${round(calendar.hours)} h`,
      spared: `${round(spared.hours)} h`,
    },
    {
      what: IN_MONEY,
      was: `${sum(plan.money)} ${currency}`,
      by: `${sum(calendar.money)} ${currency}`,
      spared: <Figure of={spared.money} scale={moneyIn(currency)} />,
    },
  ];
}

/** What the plan's own dates spared, or did not, against cleaning everything by the calendar. */
export function PlanAgainstCalendar({ of, food, timeZone }: { of: OnFile | null; food: number; timeZone: string }) {
  const r = of?.replay;
  const calendar = `Every ${of?.calendarWeeks ?? 0} weeks`;
  return (
    <Sheet title="What the plan is worth" aside={of ? <span className="text-sm text-soft">as of {momentIn(of.at, timeZone)}</span> : null}>
      {!of || !r ? (
        <p className="text-soft">
          Not enough visits yet. It takes coils that were cleaned twice within a year, and is worked out in the night.
        </p>
      ) : (
        <>
          <Table label="The plan’s dates beside a calendar" stack>
            <thead>
              <tr>
                <Th>Last year, {r.coils} coils</Th>
                <Th className="text-right">As it was</Th>
                <Th className="text-right">{calendar}</Th>
                <Th className="text-right">Spared</Th>
              </tr>
            </thead>
            <tbody>
              {rowsOf(r, of.currency).map(({ what, was, by, spared }) => (
                <tr key={what}>
                  <Td className={what === IN_MONEY ? 'font-bold' : ''}>{what}</Td>
                  {[
                    { label: 'As it was', cell: was },
                    { label: calendar, cell: by },
                    { label: 'Spared', cell: spared },
                  ].map(({ label, cell }) => (
                    <Td key={label} label={label} className="text-right">
                      {cell}
                    </Td>
                  ))}
                </tr>
              ))}
            </tbody>
          </Table>
          <p className="mt-2 text-sm text-soft">
            {r.spared.money.lo > 0
              ? 'The plan spared money beyond chance.'
              : r.spared.money.hi < 0
                ? 'The calendar would have cost less, beyond chance: look at the costs and the accepted risk under What if.'
                : 'Which of the two costs less cannot be told: the band reaches over nothing.'}{' '}
            Food was over its limit, and somebody was told, {food === 0 ? 'at no visit' : food === 1 ? 'once' : `${food} times`} in the same
            year.
          </p>
          <details className="mt-2 text-sm text-soft no-print">
            <summary className="font-bold text-cold">Where it comes from</summary>
            <p className="mt-1 max-w-[80ch]">
              Each interval between two cleanings of a coil in the last year is gone through again with what is believed of that coil today,
              and the same days once more in intervals of {of.calendarWeeks} weeks, the shop’s usual. Breakdowns come at the shop’s own
              chance a day once a coil is past its limit; what they, a packed coil and a cleaning cost is the shop’s own as set under What
              if. Bands are 80 %: what is not known of each rate, and luck. What the growth law has wrong is in both columns alike and in no
              band.
              {of.sampled > r.coils ? ` ${of.sampled - r.coils} of ${of.sampled} coils looked at had no two cleanings.` : ''}
            </p>
          </details>
        </>
      )}
    </Sheet>
  );
}
