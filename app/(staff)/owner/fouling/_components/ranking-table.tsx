import { labelOf } from '@/lib/core/typed/closed-set';
import Link from 'next/link';
import { Figure } from '@/app/_ui/figures/figure';
import { PERCENT } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { monthlyLoss } from '@/lib/core/evidence';
import { RateBar } from '../../_components/rate-bar';

type Row = {
  id: string; name: string; kitchen: string; customer: string; kind: string | null; placement: string | null;
  units: number; evidence: number; rate: number; sd: number; best: number; worst: number;
}; // prettier-ignore

const kindWords = (r: Row) =>
  [r.kind && labelOf(UNIT_KIND_LABEL, r.kind), r.placement && labelOf(PLACEMENT_LABEL, r.placement)].filter(Boolean).join(', ');

/** Who fouls fastest, with the places between which each stands. */
export function RankingTable({ rows, by }: { rows: Row[]; by: 'kitchen' | 'unit' }) {
  const losses = rows.map((r) => monthlyLoss([{ ratePerDay: r.rate, rateSdPerDay: r.sd }]) ?? { value: 0, lo: 0, hi: 0 });
  const most = Math.max(0.01, ...losses.map((l) => l.hi));
  return (
    <Table label={by === 'unit' ? 'Coils by how fast they foul' : 'Kitchens by how fast their coils foul'}>
      <thead>
        <tr>
          <Th className="w-28">Rank</Th>
          <Th>{by === 'unit' ? 'Coil' : 'Kitchen'}</Th>
          <Th className="w-[34%] min-w-32">Lost in 30 days</Th>
          {by === 'kitchen' ? <Th className="text-right max-md:hidden">Coils</Th> : null}
          <Th className="text-right max-md:hidden">Looks and readings</Th>
        </tr>
      </thead>
      <tbody>
        {rows.map((r, i) => (
          <tr key={r.id}>
            <Td className="tabular-nums">
              {r.best === r.worst ? (
                <b>{r.best}</b>
              ) : (
                <>
                  <span className="whitespace-nowrap">
                    {r.best} to {r.worst}
                  </span>
                  <div className="text-sm text-soft">can’t be told apart</div>
                </>
              )}
            </Td>
            <Td>
              <Link href={by === 'unit' ? `/units/${r.id}#evidence` : `/owner/kitchens/${r.id}`} className="font-bold">
                {r.name}
              </Link>
              <div className="text-sm text-soft">
                {by === 'unit' ? `${r.kitchen}. ${kindWords(r)}` : r.customer === r.name ? '' : r.customer}
              </div>
            </Td>
            <Td>
              <RateBar of={losses[i] ?? { value: 0, lo: 0, hi: 0 }} most={most} />
              <Figure of={losses[i]} scale={PERCENT} />
            </Td>
            {by === 'kitchen' ? <Td className="text-right max-md:hidden">{r.units}</Td> : null}
            <Td className="text-right max-md:hidden">{r.evidence}</Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
