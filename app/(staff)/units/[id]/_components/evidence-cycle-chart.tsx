'use client';

import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { Chart, INK } from '@/app/_ui/figures/plot';
import { temperatureIn } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import type { CyclePicture } from '@/lib/core/evidence/pictures';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { PSI_PA } from '@/lib/core/measures';

const NAMES = {
  suction: 'suction',
  discharge: 'discharge',
  dew: 'dew',
  bubble: 'bubble',
  liquid: 'liquid',
  evaporator_inlet: 'after expansion',
} as const;
const LABELLED = ['suction', 'discharge', 'liquid', 'evaporator_inlet'];
/** Ticks of a log scale that a gauge's reader would choose. */
const TICKS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

export function CycleChart({ picture, units, refrigerant }: { picture: CyclePicture; units: MeasureUnits; refrigerant: string }) {
  const bar = units.pressure === 'bar';
  const unit = bar ? 'bar abs.' : 'psia';
  const degrees = temperatureIn(units);
  const build = useCallback(
    (width: number): Plot.PlotOptions => {
      const p = (x: number) => (units.pressure === 'bar' ? x / 1e5 : x / PSI_PA);
      const loop = [...picture.cycle, ...picture.cycle.slice(0, 1)].map((c) => ({ x: c.h / 1000, y: p(c.p) }));
      const names = picture.cycle
        .filter((c) => LABELLED.includes(c.name))
        .map((c) => ({ x: c.h / 1000, y: p(c.p), name: NAMES[c.name], left: c.name === 'liquid' || c.name === 'evaporator_inlet' }));
      const dome = picture.dome.map((d) => ({ x: d.h / 1000, y: p(d.p) }));
      const most = Math.max(...dome.map((d) => d.y)) * 1.15;
      const low = Math.min(...loop.map((d) => d.y)) * 0.6;
      return {
        height: width < 560 ? 290 : 330,
        marginLeft: 50,
        marginRight: 72,
        marginTop: 26,
        marginBottom: 40,
        x: { label: 'enthalpy, kJ/kg →', grid: true },
        y: {
          type: 'log',
          domain: [low, most],
          label: `↑ pressure, ${unit}`,
          grid: true,
          ticks: TICKS.filter((t) => t >= low && t <= most),
          tickFormat: '~g',
        },
        marks: [
          Plot.line(dome, { x: 'x', y: 'y', stroke: INK.edge, strokeWidth: 1.5, clip: true }),
          Plot.line(loop, { x: 'x', y: 'y', stroke: INK.warm, strokeWidth: 2.5 }),
          Plot.dot(names, { x: 'x', y: 'y', r: 3.5, fill: INK.warm }),
          Plot.text(
            names.filter((n) => n.left),
            { x: 'x', y: 'y', text: 'name', textAnchor: 'end', dx: -8, fill: INK.ink },
          ),
          Plot.text(
            names.filter((n) => !n.left),
            { x: 'x', y: 'y', text: 'name', textAnchor: 'start', dx: 8, fill: INK.ink },
          ),
        ],
      };
    },
    [picture, units, unit],
  );
  return (
    <Chart
      label={`Pressure–enthalpy picture of the cycle at the last reading, ${refrigerant}.`}
      build={build}
      caption="The cycle at the last reading over the saturation dome. What was not measured is taken as usual for its kind."
      table={
        <Table label="States of the cycle">
          <thead>
            <tr>
              <Th>State</Th>
              <Th className="text-right">{degrees.unit}</Th>
              <Th className="text-right">{unit}</Th>
              <Th className="text-right">kJ/kg</Th>
            </tr>
          </thead>
          <tbody>
            {picture.cycle.map((c) => (
              <tr key={c.name}>
                <Td>{NAMES[c.name]}</Td>
                <Td className="text-right">{degrees.of(c.T).toFixed(1)}</Td>
                <Td className="text-right">{bar ? (c.p / 1e5).toFixed(2) : (c.p / PSI_PA).toFixed(0)}</Td>
                <Td className="text-right">{(c.h / 1000).toFixed(1)}</Td>
              </tr>
            ))}
          </tbody>
        </Table>
      }
    />
  );
}
