import { Figure } from '@/app/_ui/figures/figure';
import { moneyIn, type Scale } from '@/app/_ui/figures/measure';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { momentIn } from '@/lib/core/calendar/when';
import type { Replay } from '@/lib/core/owner/replay';

type OnFile = { replay: Replay | null; sampled: number; currency: string; from: string; to: string; calendarWeeks: number; at: Date };

const COUNT: Scale = { unit: '', of: (x) => x, decimals: 1, most: 1 };
const round = (x: number) =>
  `${x < 0 ? '−' : ''}${Math.abs(x) < 10 ? Math.abs(x).toFixed(1) : Math.round(Math.abs(x)).toLocaleString('en-US')}`;
/** Three digits of a sum: more than what is believed of a coil can tell. */
const sum = (x: number) => round(Number(x.toPrecision(3)));

/** What the plan's own dates spared, or did not, against cleaning everything by the calendar. */
export function PlanAgainstCalendar({ of, food, timeZone }: { of: OnFile | null; food: number; timeZone: string }) {
  const money = moneyIn(of?.currency ?? 'USD');
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
              <tr>
                <Td>Breakdowns expected, each a box of food at risk</Td>
                <Td label="As it was" className="text-right">
                  {round(r.plan.breakdowns)}
                </Td>
                <Td label={calendar} className="text-right">
                  {round(r.calendar.breakdowns)}
                </Td>
                <Td label="Spared" className="text-right">
                  <Figure of={r.spared.breakdowns} scale={COUNT} />
                </Td>
              </tr>
              <tr>
                <Td>Coils found packed, each a visit more</Td>
                <Td label="As it was" className="text-right">
                  {round(r.plan.comebacks)}
                </Td>
                <Td label={calendar} className="text-right">
                  {round(r.calendar.comebacks)}
                </Td>
                <Td label="Spared" className="text-right">
                  <Figure of={r.spared.comebacks} scale={COUNT} />
                </Td>
              </tr>
              <tr>
                <Td>
                  Hours of cleaning ({round(r.plan.cleanings)} cleanings, {round(r.calendar.cleanings)} by the calendar)
                </Td>
                <Td label="As it was" className="text-right">
                  {round(r.plan.hours)} h
                </Td>
                <Td label={calendar} className="text-right">
                  {round(r.calendar.hours)} h
                </Td>
                <Td label="Spared" className="text-right">
                  {round(r.spared.hours)} h
                </Td>
              </tr>
              <tr>
                <Td className="font-bold">All of it in money, energy too</Td>
                <Td label="As it was" className="text-right">
                  {sum(r.plan.money)} {of.currency}
                </Td>
                <Td label={calendar} className="text-right">
                  {sum(r.calendar.money)} {of.currency}
                </Td>
                <Td label="Spared" className="text-right">
                  <Figure of={r.spared.money} scale={money} />
                </Td>
              </tr>
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
