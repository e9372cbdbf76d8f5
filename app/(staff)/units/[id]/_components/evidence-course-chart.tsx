'use client';

import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { Chart, INK } from '@/app/_ui/figures/plot';
import { dayDateWords } from '@/lib/core/calendar/when';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { counted } from '@/lib/core/wording/counted';
import type { CoursePoint } from '@/lib/core/evidence';

export type CourseRow = Omit<CoursePoint, 'on'> & { on: string };
export type ReadRow = { on: string; phase: string; lnK: number; sd: number; setAside: string | null };
type Props = {
  course: CourseRow[];
  fan: CourseRow[];
  readings: ReadRow[];
  cleanings: string[];
  limits: { name: string; lnK: number }[];
  today: string;
  dueOn: string | null;
};

const day = (d: string) => new Date(`${d}T00:00:00Z`);
/** Share of the clean conductance, %. */
const share = (lnK: number) => 100 * Math.exp(lnK);
const Z80 = 1.2816;
const NARROW_DAYS = 190;

export function CourseChart({ course, fan, readings, cleanings, limits, today, dueOn }: Props) {
  const build = useCallback(
    (width: number): Plot.PlotOptions => {
      // A narrow screen has room for the last half year; the table has it all.
      const from = width < 560 ? new Date(day(today).getTime() - NARROW_DAYS * 86_400_000) : null;
      const seen = (d: string) => from === null || day(d) >= from;
      const at = (p: CourseRow) => ({ x: day(p.on), y: share(p.median), lo: share(p.low), hi: share(p.high) });
      const past = course.filter((p) => seen(p.on)).map(at);
      const last = course.at(-1);
      const ahead = fan.map(at);
      const toToday = last && ahead[0] ? [at(last), ahead[0]] : [];
      const line = limits.toSorted((a, b) => b.lnK - a.lnK)[0];
      const used = readings.filter((r) => !r.setAside && seen(r.on));
      const aside = readings.filter((r) => r.setAside && seen(r.on));
      const cleaned = cleanings.filter(seen).map(day);
      const dot = (r: ReadRow) => ({
        x: day(r.on),
        y: share(r.lnK),
        lo: share(r.lnK - Z80 * r.sd),
        hi: share(r.lnK + Z80 * r.sd),
        phase: r.phase,
      });
      // The wide belief before anything was known would only flatten the rest.
      const lowest = Math.min(
        ...[...past.slice(1), ...ahead].map((p) => p.lo),
        ...used.map((r) => share(r.lnK)),
        line ? share(line.lnK) : 100,
      );
      return {
        height: width < 560 ? 300 : 360,
        marginLeft: 46,
        marginRight: 24,
        marginTop: 34,
        marginBottom: 32,
        x: { type: 'utc', label: null, ticks: width < 560 ? 4 : 8 },
        y: { domain: [Math.max(0, Math.floor((lowest - 6) / 10) * 10), 120], grid: true, label: '↑ share of clean conductance, %' },
        marks: [
          Plot.areaY(past, { x: 'x', y1: 'lo', y2: 'hi', fill: INK.cold, fillOpacity: 0.16, clip: true }),
          Plot.areaY(toToday, { x: 'x', y1: 'lo', y2: 'hi', fill: INK.cold, fillOpacity: 0.16 }),
          Plot.areaY(ahead, { x: 'x', y1: 'lo', y2: 'hi', fill: INK.warmer, fillOpacity: 0.25 }),
          Plot.ruleX(cleaned, { stroke: INK.edge, strokeDasharray: '2 4' }),
          Plot.text(cleaned, { x: (d: Date) => d, frameAnchor: 'top', dy: -12, text: () => '✓', fill: INK.soft }),
          line ? Plot.ruleY([share(line.lnK)], { stroke: INK.alarm, strokeWidth: 1.5 }) : null,
          Plot.lineY(past, { x: 'x', y: 'y', stroke: INK.cold, strokeWidth: 2 }),
          Plot.lineY(toToday, { x: 'x', y: 'y', stroke: INK.cold, strokeWidth: 2 }),
          Plot.lineY(ahead, { x: 'x', y: 'y', stroke: INK.warm, strokeWidth: 2, strokeDasharray: '6 3' }),
          Plot.ruleX(used.map(dot), { x: 'x', y1: 'lo', y2: 'hi', stroke: INK.edge, clip: true }),
          Plot.dot(used.map(dot), {
            x: 'x',
            y: 'y',
            r: 4,
            fill: (d: { phase: string }) => (d.phase === 'after' ? INK.sheet : INK.ink),
            stroke: INK.ink,
            strokeWidth: 1.5,
            clip: true,
          }),
          Plot.dot(aside.map(dot), { x: 'x', y: 'y', r: 4, symbol: 'times', stroke: INK.soft, strokeWidth: 1.5, clip: true }),
          // Last, with paper around the letters: readings cross it.
          line
            ? Plot.text([{ y: share(line.lnK) }], {
                y: 'y',
                frameAnchor: 'left',
                dx: 6,
                dy: 10,
                textAnchor: 'start',
                text: () => `limit: ${line.name.toLowerCase()}`,
                fill: INK.alarm,
                fontWeight: 'bold',
                stroke: INK.sheet,
                strokeWidth: 5,
              })
            : null,
          Plot.ruleX([day(today)], { stroke: INK.ink, strokeWidth: 1 }),
          Plot.text([day(today)], {
            x: (d: Date) => d,
            frameAnchor: 'bottom',
            dy: -6,
            dx: -4,
            textAnchor: 'end',
            text: () => 'today',
            fill: INK.ink,
            fontWeight: 'bold',
            stroke: INK.sheet,
            strokeWidth: 4,
          }),
          dueOn ? Plot.ruleX([day(dueOn)], { stroke: INK.cold, strokeWidth: 2 }) : null,
          dueOn
            ? Plot.text([day(dueOn)], {
                x: (d: Date) => d,
                frameAnchor: 'bottom',
                dy: -6,
                dx: 4,
                textAnchor: 'start',
                text: () => 'due',
                fill: INK.cold,
                fontWeight: 'bold',
                stroke: INK.sheet,
                strokeWidth: 4,
              })
            : null,
        ],
      };
    },
    [course, fan, readings, cleanings, limits, today, dueOn],
  );
  const now = fan[0];
  const label = now
    ? `Share of the clean conductance over time. Today about ${Math.round(share(now.median))} percent, between ${Math.round(share(now.low))} and ${Math.round(share(now.high))}. ${counted(cleanings.length, 'cleaning')}.`
    : 'Share of the clean conductance over time.';
  return (
    <Chart
      label={label}
      build={build}
      caption={
        <>
          Line and shade: what was believed, with its 10–90 % band. ● read before cleaning, ○ after, × set aside because another cause led.
          ✓ cleaned. Dashed: what is to come if nothing is done. A narrow screen shows the last half year.
        </>
      }
      table={<CourseTable rows={[...course, ...fan]} />}
    />
  );
}

const STAGE = { met: 'expected on arrival', left: 'after the visit', ahead: 'if nothing is done' } as const;

function CourseTable({ rows }: { rows: CourseRow[] }) {
  return (
    <Table label="Share of clean conductance over time">
      <thead>
        <tr>
          <Th>Date</Th>
          <Th>Stage</Th>
          <Th className="text-right">Share of clean, %</Th>
          <Th className="text-right">Band, %</Th>
        </tr>
      </thead>
      <tbody>
        {rows.map((p, i) => (
          <tr key={i}>
            <Td>{dayDateWords(p.on)}</Td>
            <Td>{STAGE[p.stage]}</Td>
            <Td className="text-right">{Math.round(share(p.median))}</Td>
            <Td className="text-right">
              {Math.round(share(p.low))}–{Math.round(share(p.high))}
            </Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
