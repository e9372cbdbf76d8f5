'use client';

import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { Chart, INK } from '@/app/_ui/figures/plot';
import { gaugePressureIn, temperatureIn } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import type { HeadPicture, HeadPoint } from '@/lib/core/evidence/pictures';
import type { MeasureUnits } from '@/lib/core/measures/preferred';

export function HeadChart({
  picture,
  units,
  tripNowK,
  tripCleanK,
}: {
  picture: HeadPicture;
  units: MeasureUnits;
  tripNowK: number | null;
  tripCleanK: number | null;
}) {
  const degrees = temperatureIn(units);
  const gauge = gaugePressureIn(units);
  const byHead = picture.by === 'head';
  const yOf = useCallback(
    (p: Pick<HeadPoint, 'headPaGauge' | 'condensingK'>) =>
      byHead ? (p.headPaGauge === null ? NaN : gaugePressureIn(units).of(p.headPaGauge)) : temperatureIn(units).of(p.condensingK),
    [byHead, units],
  );
  const build = useCallback(
    (width: number): Plot.PlotOptions => {
      const t = temperatureIn(units).of;
      const xy = (p: HeadPoint) => ({ x: t(p.airK), y: yOf(p) });
      const band = picture.nowBest
        .slice(0, Math.min(picture.nowBest.length, picture.nowWorst.length))
        .map((p, i) => ({ x: t(p.airK), lo: yOf(p), hi: yOf(picture.nowWorst[i] as HeadPoint) }));
      const end = (line: HeadPoint[]) => line.slice(-1).map(xy);
      // Close lines would print their names over each other: the upper one's stands above, the lower one's below.
      const above = (end(picture.now)[0]?.y ?? 0) >= (end(picture.clean)[0]?.y ?? 0) ? -9 : 9;
      const readings = picture.readings.map((r) => ({ ...xy(r), phase: r.phase })).filter((r) => Number.isFinite(r.y));
      const cut = picture.cutout && yOf(picture.cutout);
      const trips =
        cut === null
          ? []
          : [
              { x: tripNowK, tone: INK.warm },
              { x: tripCleanK, tone: INK.cold },
            ].flatMap(({ x, tone }) => (x === null ? [] : [{ x: t(x), y: cut, tone }]));
      return {
        height: width < 560 ? 290 : 330,
        marginLeft: 44,
        marginRight: 46,
        marginTop: 26,
        marginBottom: 40,
        x: { label: `air into the coil, ${temperatureIn(units).unit} →`, grid: true },
        y: {
          label: byHead ? `↑ head, ${gaugePressureIn(units).unit}` : `↑ condensing, ${temperatureIn(units).unit}`,
          grid: true,
          zero: false,
        },
        marks: [
          Plot.areaY(band, { x: 'x', y1: 'lo', y2: 'hi', fill: INK.warmer, fillOpacity: 0.28 }),
          Plot.line(picture.clean.map(xy), { x: 'x', y: 'y', stroke: INK.cold, strokeWidth: 2.5 }),
          Plot.line(picture.now.map(xy), { x: 'x', y: 'y', stroke: INK.warm, strokeWidth: 2.5, strokeDasharray: '7 3' }),
          Plot.text(end(picture.clean), {
            x: 'x',
            y: 'y',
            dx: 6,
            dy: -above,
            textAnchor: 'start',
            text: () => 'clean',
            fill: INK.cold,
            fontWeight: 'bold',
          }),
          Plot.text(end(picture.now), {
            x: 'x',
            y: 'y',
            dx: 6,
            dy: above,
            textAnchor: 'start',
            text: () => 'now',
            fill: INK.warm,
            fontWeight: 'bold',
          }),
          cut === null ? null : Plot.ruleY([cut], { stroke: INK.alarm, strokeWidth: 1.5 }),
          cut === null
            ? null
            : Plot.text([{ y: cut }], {
                y: 'y',
                frameAnchor: 'left',
                dx: 6,
                dy: -8,
                textAnchor: 'start',
                text: () => 'cut-out',
                fill: INK.alarm,
                fontWeight: 'bold',
                stroke: INK.sheet,
                strokeWidth: 4,
              }),
          Plot.dot(trips, { x: 'x', y: 'y', r: 5, symbol: 'diamond', fill: 'tone', clip: true }),
          Plot.ruleX([t(picture.hotDayAirK)], { stroke: INK.edge, strokeDasharray: '2 4' }),
          Plot.text([{ x: t(picture.hotDayAirK) }], {
            x: 'x',
            frameAnchor: 'bottom',
            dy: -6,
            dx: 4,
            textAnchor: 'start',
            text: () => 'hot day',
            fill: INK.soft,
            stroke: INK.sheet,
            strokeWidth: 4,
          }),
          Plot.dot(readings, {
            x: 'x',
            y: 'y',
            r: 3.5,
            fill: (d: { phase: string }) => (d.phase === 'after' ? INK.sheet : INK.ink),
            stroke: INK.ink,
            strokeWidth: 1.3,
          }),
        ],
      };
    },
    [picture, units, yOf, byHead, tripNowK, tripCleanK],
  );
  const rounded = (x: number) => (Number.isFinite(x) ? x.toFixed(byHead ? gauge.decimals : degrees.decimals) : '—');
  return (
    <Chart
      label={`${byHead ? 'Head pressure' : 'Condensing temperature'} against air into the coil, clean and as it is now.`}
      build={build}
      caption={
        <>
          Lines by the unit’s own model with the box at its set point; shade: the present coil’s band. ● read before cleaning, ○ after.
          {picture.cutout ? ' ◆ the air at which it reaches its cut-out. Never test a cut-out by blocking the coil.' : ''}
        </>
      }
      table={
        <Table label="Head against air">
          <thead>
            <tr>
              <Th className="text-right">Air, {degrees.unit}</Th>
              <Th className="text-right">Clean, {byHead ? gauge.unit : degrees.unit}</Th>
              <Th className="text-right">Now, {byHead ? gauge.unit : degrees.unit}</Th>
            </tr>
          </thead>
          <tbody>
            {picture.clean.map((p) => {
              const now = picture.now.find((n) => n.airK === p.airK);
              return (
                <tr key={p.airK}>
                  <Td className="text-right">{degrees.of(p.airK).toFixed(0)}</Td>
                  <Td className="text-right">{rounded(yOf(p))}</Td>
                  <Td className="text-right">{now ? rounded(yOf(now)) : '—'}</Td>
                </tr>
              );
            })}
          </tbody>
        </Table>
      }
    />
  );
}
