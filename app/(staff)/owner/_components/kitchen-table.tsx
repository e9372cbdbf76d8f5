import Link from 'next/link';
import { Figure } from '@/app/_ui/figure';
import { moneyIn, PERCENT } from '@/app/_ui/measure';
import { State } from '@/app/_ui/state';
import { Table, Td, Th } from '@/app/_ui/table';
import type { Figure as Banded } from '@/lib/core/condenser';
import { PLACEMENT_LABEL, type Placement } from '@/lib/core/equipment';
import { RateBar } from './rate-bar';

export type KitchenLine = {
  id: string; name: string; customer: string; units: number; evidence: number; monthly: Banded | null; energy: Banded | null; money: Banded | null; overdue: number;
  fastest: { id: string; name: string; placement: string } | null;
}; // prettier-ignore

const KWH = { unit: 'kWh', of: (x: number) => x, decimals: 1 };

export function KitchenTable({ kitchens, currency }: { kitchens: KitchenLine[]; currency: string }) {
  const most = Math.max(0.01, ...kitchens.map((k) => k.monthly?.hi ?? 0));
  return (
    <Table label="Kitchens by how fast their coils foul">
      <thead>
        <tr>
          <Th>Kitchen</Th>
          <Th className="w-[22%] min-w-32">Lost in 30 days</Th>
          <Th>Fastest coil</Th>
          <Th className="text-right">Costs a day</Th>
          <Th className="text-right">Evidence</Th>
          <Th>Overdue</Th>
        </tr>
      </thead>
      <tbody>
        {kitchens.map((k) => (
          <tr key={k.id}>
            <Td className="min-w-44">
              <Link href={`/owner/kitchens/${k.id}`} className="font-bold">
                {k.name}
              </Link>
              {k.customer !== k.name ? <div className="text-sm text-soft">{k.customer}</div> : null}
            </Td>
            <Td>
              {k.monthly ? (
                <>
                  <RateBar of={k.monthly} most={most} />
                  <Figure of={k.monthly} scale={PERCENT} />
                </>
              ) : (
                <span className="text-soft">no visit yet</span>
              )}
            </Td>
            <Td className="min-w-36">
              {k.fastest ? (
                <>
                  <Link href={`/units/${k.fastest.id}#evidence`}>{k.fastest.name}</Link>
                  <div className="text-sm text-soft">{PLACEMENT_LABEL[k.fastest.placement as Placement] ?? k.fastest.placement}</div>
                </>
              ) : (
                '—'
              )}
            </Td>
            <Td className="text-right">
              {k.money ? <Figure of={k.money} scale={moneyIn(currency)} /> : <span className="text-sm text-soft">no price on file</span>}
              <div className="text-sm">{k.energy ? <Figure of={k.energy} scale={KWH} /> : null}</div>
            </Td>
            <Td className="text-right">{k.evidence}</Td>
            <Td>
              {k.overdue > 0 ? (
                <Link href={`/due?kitchen=${k.id}`} className="no-underline">
                  <State shape="late" tone="alarm">
                    {k.overdue} {k.overdue === 1 ? 'task' : 'tasks'}
                  </State>
                </Link>
              ) : (
                <State shape="done" tone="soft">
                  none
                </State>
              )}
            </Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
