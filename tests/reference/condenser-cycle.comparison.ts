import { typicalCompressor, type CompressorConstants } from '@/lib/core/condenser/compressor/kinds';
import { cycleAt } from '@/lib/core/condenser/machine/cycle';
import { fluidOf } from '@/lib/core/condenser/fluid/fluid';
import { readMap, type CompressorMap } from '@/lib/core/condenser/compressor/ten-coefficient';
import { volumetricEfficiency } from '@/lib/core/condenser/compressor/volumetric';
import type { Comparison } from './comparison';
import { fahrenheit, worstOf } from './condenser-support';

/** Change of cooling and power in % from condensing 105 °F to 115, 125 and 135. */
const CYCLE_TABLE = [
  { id: 'R134a', evaporating: 20, changes: [[-7.8, 7.1], [-15.6, 13.0], [-23.4, 17.7]] },
  { id: 'R404A', evaporating: 20, changes: [[-9.4, 7.6], [-18.9, 14.2], [-28.5, 19.8]] },
  { id: 'R404A', evaporating: -20, changes: [[-13.0, 1.0], [-25.8, 0.6], [-38.3, -1.1]] },
  { id: 'R290', evaporating: 20, changes: [[-7.1, 8.1], [-14.3, 15.3], [-21.5, 21.6]] },
] as const; // prettier-ignore

/** The table's own compressor: clearance 4 %, n 1.1, a constant 60 % isentropic, nothing lost through the shell. */
const TABLE_COMPRESSOR: CompressorConstants = {
  ...typicalCompressor('reciprocating'),
  ratedEfficiency: 0.6,
  clearance: 0.04,
  efficiencyFall: 0,
  shellLoss: 0,
};

function cycleTable(): number[] {
  const misses: number[] = [];
  for (const { id, evaporating, changes } of CYCLE_TABLE) {
    const fluid = fluidOf(id);
    const te = fahrenheit(evaporating);
    const compressor = { by: 'constants', constants: TABLE_COMPRESSOR, displacement: 1 } as const;
    const at = (condensing: number) => {
      const p2 = fluid.dewP(fahrenheit(condensing));
      const given = { suctionK: te + 20 / 1.8, liquidK: fluid.bubbleT(p2) - 8 / 1.8 };
      return cycleAt(fluid, compressor, fluid.dewP(te), p2, given);
    };
    const base = at(105);
    changes.forEach(([cooling, power], i) => {
      const hot = at(115 + 10 * i);
      misses.push((hot.cooling / base.cooling - 1) * 100 - cooling, (hot.power / base.power - 1) * 100 - power);
    });
  }
  return misses;
}

/** °F, lb/h and W, from the open air-conditioning model ACHP, ComponentTests/CompressorTest.py. */
const ACHP_MAP: CompressorMap = {
  units: 'F_lb_per_h',
  ratedSuperheatK: 11.1,
  massFlow: [217.3163128, 5.094492028, -0.593170311, 0.0438, -0.0214, 0.0104, 7.9e-5, -5.73e-5, 1.79e-4, -8.08e-5],
  power: [-561.3615705, -15.62601841, 46.92506685, -0.217949552, 0.435062616, -0.442400826, 2.25e-4, 2.37e-3, -3.32e-3, 2.5e-3],
};
const ACHP_POINTS = [
  [42.53, 107.33, 454.414, 2247.78],
  [45, 100, 478.992, 2026.83],
  [45, 120, 467.928, 2668.95],
  [20, 120, 273.757, 2822.92],
] as const;

function mapPoints() {
  const read = ACHP_POINTS.map(([s, d]) => readMap(ACHP_MAP, fahrenheit(s), fahrenheit(d)));
  return {
    flow: read.map((r, i) => (r.massFlow * 3600) / 0.45359237 - (ACHP_POINTS[i]?.[2] ?? NaN)),
    power: read.map((r, i) => r.power - (ACHP_POINTS[i]?.[3] ?? NaN)),
  };
}

export function comparisons(): Comparison[] {
  const map = mapPoints();
  const achp = 'Coefficients of ACHP, ComponentTests/CompressorTest.py; values evaluated apart from this program';
  return [
    {
      id: 'condenser.cycle-table',
      source: 'Cycle estimate computed with CoolProp 8 (clearance 4 %, n 1.1, 60 % isentropic, 20 °F superheat, 8 °F subcooling)',
      quantity: 'Cooling and power against condensing temperature, 105 to 135 °F',
      unit: '% points',
      tolerance: 0.06,
      expectedSamples: 24,
      ...worstOf(cycleTable()),
    },
    {
      id: 'condenser.map.flow',
      source: achp,
      quantity: 'Ten-coefficient mass flow',
      unit: 'lb/h',
      tolerance: 0.0006,
      expectedSamples: 4,
      ...worstOf(map.flow),
    },
    {
      id: 'condenser.map.power',
      source: achp,
      quantity: 'Ten-coefficient power',
      unit: 'W',
      tolerance: 0.006,
      expectedSamples: 4,
      ...worstOf(map.power),
    },
    {
      id: 'condenser.volumetric',
      source: 'Clearance formula worked by hand: c 0.04, n 1.1, pressure ratios 3.81 and 8.69',
      quantity: 'Volumetric efficiency',
      unit: '1',
      tolerance: 0.0006,
      expectedSamples: 2,
      ...worstOf([volumetricEfficiency(3.81, 0.04, 1.1) - 0.905, volumetricEfficiency(8.69, 0.04, 1.1) - 0.754]),
    },
  ];
}
