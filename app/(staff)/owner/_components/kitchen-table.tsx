import { labelOf } from '@/lib/core/typed/closed-set';
import Link from 'next/link';
import { Figure } from '@/app/_ui/figures/figure';
import { KWH_PER_30_DAYS, moneyPer30Days, PERCENT } from '@/app/_ui/figures/measure';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import type { Figure as Banded } from '@/lib/core/condenser';
import { counted } from '@/lib/core/wording/counted';
import { PLACEMENT_LABEL } from '@/lib/core/equipment/build';
import { leftOut } from './left-out';
import { RateBar } from './rate-bar';

export type KitchenLine = {
  id: string; name: string; customer: string; units: number; unseen: number; water: number; evidence: number; rate: number | null; sd: number | null; monthly: Banded | null; energy: Banded | null; money: Banded | null; overdue: number;
  fastest: { id: string; name: string; placement: string } | null;
}; // prettier-ignore

export function KitchenTable({ kitchens, currency }: { kitchens: KitchenLine[]; currency: string }) {
  const most = Math.max(0.01, ...kitchens.map((k) => k.monthly?.hi ?? 0));
  return (
    <Table label="Kitchens by how fast their coils foul">
      <thead>
        <tr>
          <Th>Kitchen</Th>
          <Th className="w-[24%] min-w-32">Lost in 30 days</Th>
          <Th className="max-md:hidden">Fastest coil</Th>
          <Th className="max-md:hidden">Costs in 30 days</Th>
          <Th className="text-right max-md:hidden">Looks and readings</Th>
          <Th className="max-md:hidden">Overdue</Th>
        </tr>
      </thead>
      <tbody>
        {kitchens.map((k) => (
          <tr key={k.id}>
            <Td className="md:min-w-40">
              <Link href={`/owner/kitchens/${k.id}`} className="font-bold">
                {k.name}
              </Link>
              {k.customer !== k.name ? <div className="text-sm text-soft">{k.customer}</div> : null}
              {/* A phone has room for two columns: the rest stands under the name. */}
              <div className="text-sm md:hidden">
                <Cost of={k} currency={currency} />
                {k.overdue > 0 ? <Overdue of={k} /> : null}
              </div>
            </Td>
            <Td>
              {k.monthly ? (
                <>
                  <RateBar of={k.monthly} most={most} />
                  <Figure of={k.monthly} scale={PERCENT} />
                </>
              ) : (
                <span className="text-soft">can’t say yet</span>
              )}
              {leftOut(k) ? <div className="text-sm text-soft">without {leftOut(k)}</div> : null}
            </Td>
            <Td className="min-w-36 max-md:hidden">
              {k.fastest ? (
                <>
                  <Link href={`/units/${k.fastest.id}#evidence`}>{k.fastest.name}</Link>
                  <div className="text-sm text-soft">{labelOf(PLACEMENT_LABEL, k.fastest.placement)}</div>
                </>
              ) : (
                '—'
              )}
            </Td>
            <Td className="max-md:hidden">
              <Cost of={k} currency={currency} />
            </Td>
            <Td className="text-right max-md:hidden">{k.evidence}</Td>
            <Td className="max-md:hidden">
              <Overdue of={k} />
            </Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

function Cost({ of: k, currency }: { of: KitchenLine; currency: string }) {
  return (
    <>
      <div className="whitespace-nowrap">
        {k.money ? (
          <Figure of={k.money} scale={moneyPer30Days(currency)} />
        ) : (
          <span className="text-sm text-soft">{k.energy ? 'no price on file' : 'can’t say yet'}</span>
        )}
      </div>
      {k.energy ? (
        <div className="text-sm whitespace-nowrap">
          <Figure of={k.energy} scale={KWH_PER_30_DAYS} />
        </div>
      ) : null}
    </>
  );
}

function Overdue({ of: k }: { of: KitchenLine }) {
  if (k.overdue === 0)
    return (
      <State shape="done" tone="soft">
        none
      </State>
    );
  return (
    <Link href={`/due?show=overdue&booked=1&kitchen=${k.id}`} className="no-underline">
      <State shape="late" tone="alarm">
        {counted(k.overdue, 'task')}
      </State>
    </Link>
  );
}
