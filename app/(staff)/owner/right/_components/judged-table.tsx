'use client';

import Link from 'next/link';
import { Figure } from '@/app/_ui/figures/figure';
import { PERCENT } from '@/app/_ui/figures/measure';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { whole } from '@/lib/core/measures/figures';
import { judgeDates, judgeGrades, judgeReadings, type Judged, type JudgedCounts } from '@/lib/core/owner/judged';

const SAID = {
  not_enough: { label: 'not enough visits yet', shape: 'later', tone: 'soft' },
  holds: { label: 'holds', shape: 'done', tone: 'soft' },
  too_sure: { label: 'too sure: distrust', shape: 'ask', tone: 'alarm' },
  too_wary: { label: 'wider than need be', shape: 'held', tone: 'ink' },
} as const;

/** A share that came true, what was promised, and what follows from the two. */
export function JudgedCell({ of, most = false }: { of: Judged; most?: boolean }) {
  const said = SAID[of.verdict];
  return (
    <>
      {of.verdict === 'not_enough' ? null : (
        <div>
          <Figure of={of.share} scale={PERCENT} />{' '}
          <span className="text-soft">
            of {whole(of.n)}, {most ? 'at least' : 'promised'} {Math.round(100 * of.expected)} %
          </span>
        </div>
      )}
      <div className="[&>.state]:whitespace-normal">
        <State shape={said.shape} tone={said.tone}>
          {said.label}
          {of.verdict === 'not_enough' ? ` (${whole(of.n)})` : ''}
        </State>
      </div>
    </>
  );
}

export type JudgedLine = JudgedCounts & {
  of: string;
  name: string;
  /** Where its own looks stand. */
  href?: string;
};

/** A part of the page of its own: a hundred technicians as lines of figures are a fifth of what they are as drawn rows. */
export function JudgedTable({ label, head, rows }: { label: string; head: string; rows: JudgedLine[] }) {
  return (
    <Table label={label} stack>
      <thead>
        <tr>
          <Th>{head}</Th>
          <Th>Grade was a likely one</Th>
          <Th>Day of matting not proved wrong</Th>
          <Th>Reading within its band</Th>
        </tr>
      </thead>
      <tbody>
        {rows.map((r) => (
          <tr key={r.of}>
            <Td className="font-bold">{r.href ? <Link href={r.href}>{r.name}</Link> : r.name}</Td>
            <Td label="Grade was a likely one">
              <JudgedCell of={judgeGrades(r, rows.length)} />
            </Td>
            <Td label="Day of matting not proved wrong">
              <JudgedCell of={judgeDates(r, rows.length)} most />
            </Td>
            <Td label="Reading within its band">
              <JudgedCell of={judgeReadings(r, rows.length)} />
            </Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
