import { decimal, whole } from '@/lib/core/measures/figures';
import Link from 'next/link';
import { Figure } from '@/app/_ui/figures/figure';
import { moneyIn } from '@/app/_ui/figures/measure';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { PastAgain, type Past } from './past-again';
import type { WhatIfFleet } from '@/lib/core/evidence';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type Settled = Omit<WhatIfFleet, 'weeks'>;
type Answer = {
  now: Settled;
  asked: Settled;
  moved: { unitId: string; unit: string; kitchen: string; customer: string; from: number; to: number }[];
  movedCount: number;
  scale: number;
  past: Past | null;
};

/** Visits and money a month, as the present policy settles and as the asked one would. */
export function WhatIfAnswer({ answer, saved, currency }: { answer: Answer | null; saved: boolean; currency: string }) {
  if (saved)
    return (
      <Sheet title="Saved">
        <State shape="done" tone="cold">
          The settings are kept
        </State>
        <p className="mt-2">Rules move at the next visits, each with its reason; nothing on the calendar has changed.</p>
      </Sheet>
    );
  if (!answer)
    return (
      <Sheet title="What moves">
        <p className="text-soft">
          Change a number and look: visits and money a month, now and then, and the coils whose interval would move most.
        </p>
      </Sheet>
    );
  const { now, asked } = answer;
  const lines: [string, (s: Settled) => number, number][] = [
    ['Visits a month', (s) => s.visitsPerMonth, 1],
    ['Coil cleanings a month', (s) => s.cleaningsPerMonth, 1],
    [`Cleaning, ${currency} a month`, (s) => s.cleaning, 0],
    [`Energy of fouled coils, ${currency} a month`, (s) => s.energy, 0],
    [`Breakdowns expected, ${currency} a month`, (s) => s.failures, 0],
  ];
  return (
    <Sheet
      title="What moves"
      aside={
        <span className="text-sm text-soft">
          {whole(now.units)} coils{answer.scale > 1.01 ? ', from a sample of kitchens' : ''}
        </span>
      }
    >
      <Table label="What moves">
        <thead>
          <tr>
            <Th>Once rules have settled</Th>
            <Th className="text-right">Now</Th>
            <Th className="text-right">Then</Th>
            <Th className="text-right">Change</Th>
          </tr>
        </thead>
        <tbody>
          {lines.map(([label, of, decimals]) => {
            const change = of(asked) - of(now);
            const text = (x: number) => decimal(x, decimals);
            return (
              <tr key={label}>
                <Td>{label}</Td>
                <Td className="text-right">{text(of(now))}</Td>
                <Td className="text-right font-bold">{text(of(asked))}</Td>
                <Td className="text-right">
                  {Math.abs(change) < 0.5 * 10 ** -decimals ? 'none' : `${change > 0 ? '+' : '−'}${text(Math.abs(change))}`}
                </Td>
              </tr>
            );
          })}
        </tbody>
      </Table>
      <p className="mt-3">
        All of it a month: <Figure of={now.costPerMonth} scale={moneyIn(currency)} /> now,{' '}
        <Figure of={asked.costPerMonth} scale={moneyIn(currency)} /> then.
      </p>
      <p className="text-sm text-soft">
        Bands: what the coils’ rates and the luck of breakdowns leave open. The same coils are in both, so the change is surer than either.
      </p>
      <PastAgain of={answer.past} currency={currency} />
      <h3 className="mt-4">
        {answer.movedCount === 0 ? 'No coil’s interval would move' : `${whole(answer.movedCount)} intervals would move, these most`}
      </h3>
      {answer.moved.length > 0 ? (
        <ul className="mt-1">
          {answer.moved.map((m) => (
            <li key={m.unitId} className="flex flex-wrap justify-between gap-x-4 border-b border-line py-1">
              <span>
                <Link href={`/units/${m.unitId}#evidence`}>{m.unit}</Link>, {kitchenInFull(m)}
              </span>
              <span className="whitespace-nowrap">
                {Math.round(m.from)} → <b>{Math.round(m.to)}</b> weeks
              </span>
            </li>
          ))}
        </ul>
      ) : null}
    </Sheet>
  );
}
