'use client';

import Link from 'next/link';
import { Figure } from '@/app/_ui/figures/figure';
import { PERCENT } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { RateBar } from '../../_components/rate-bar';

/** `about`: what stands below its name. `lost`: share of heat transfer in 30 days. */
export type RankingLine = {
  id: string; name: string; about: string; units: number; evidence: number; best: number; worst: number;
  lost: { value: number; lo: number; hi: number };
}; // prettier-ignore

/** Who fouls fastest, with the places between which each stands. */
export function RankingTable({ rows, by }: { rows: RankingLine[]; by: 'kitchen' | 'unit' }) {
  const most = Math.max(0.01, ...rows.map((r) => r.lost.hi));
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
        {rows.map((r) => (
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
              <div className="text-sm text-soft">{r.about}</div>
            </Td>
            <Td>
              <RateBar of={r.lost} most={most} />
              <Figure of={r.lost} scale={PERCENT} />
            </Td>
            {by === 'kitchen' ? <Td className="text-right max-md:hidden">{r.units}</Td> : null}
            <Td className="text-right max-md:hidden">{r.evidence}</Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
