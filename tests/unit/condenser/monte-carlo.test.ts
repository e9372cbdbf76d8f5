import { describe, expect, it } from 'vitest';
import { gaugeSdPa } from '@/lib/core/condenser';
import { see } from '@/lib/core/condenser/machine/inverse';
import { modelOf, type UnitModel } from '@/lib/core/condenser/machine/model';
import { resolve, type Known, type Resolved } from '@/lib/core/condenser/readings/resolve';
import { seeWithSpread } from '@/lib/core/condenser/readings/spread';
import { RandomStream } from '@/lib/core/numerics/random';
import { F, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const KNOWN = ['head', 'airK', 'suctionPa', 'superheatK', 'subcoolingK', 'suctionLineK', 'liquidLineK'] as const;

/** Every input of a reading drawn from its own normal distribution. */
function shaken(random: RandomStream, r: Resolved): Resolved {
  const drawn: Record<string, Known> = {};
  for (const key of KNOWN) {
    const known = r[key];
    if (known) drawn[key] = { ...known, value: random.normal(known.value, known.sd) };
  }
  return { ...r, ...drawn };
}

function quantile(sorted: readonly number[], p: number): number {
  return sorted[Math.round(p * (sorted.length - 1))]!;
}

describe('propagation against Monte Carlo', () => {
  it.each([
    ['everything measured', 0.9, {}],
    ['badly fouled', 0.5, {}],
    ['head and air only', 0.7, { suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined }],
  ] as const)('agrees within a tenth of the band: %s', { timeout: 60_000 }, (_, left, more) => {
    const gauge = { grade: '1A', spanPa: 500 * PSI } as const;
    const reading = readingOf(stateAt(REACH_IN, left, F(85)), { gauge, thermometerSdK: undefined, ...more });
    const model = modelOf(REACH_IN) as UnitModel;
    const resolved = resolve(REACH_IN, model, reading)!;
    const scatter = 0.35;
    const analytic = seeWithSpread(model, resolved, scatter);
    const random = new RandomStream(5, `mc ${left}`);
    const rises: number[] = [];
    const lnK: number[] = [];
    for (let i = 0; i < 6_000; i++) {
      const evaporatorUA = resolved.suctionPa ? model.evaporatorUA : model.evaporatorUA * Math.exp(random.normal(0, 0.25));
      const boxK = resolved.suctionPa ? resolved.boxK : { ...resolved.boxK, value: random.normal(resolved.boxK.value, resolved.boxK.sd) };
      const s = see({ ...model, evaporatorUA }, { ...shaken(random, resolved), boxK });
      const rise = s.riseK + random.normal(0, scatter);
      rises.push(rise);
      lnK.push(Math.log(s.heatRejectedW / rise) + random.normal(0, 0.02));
    }
    rises.sort((a, b) => a - b);
    lnK.sort((a, b) => a - b);
    for (const [spread, drawn] of [
      [analytic.riseK, rises],
      [analytic.lnConductance.whole, lnK],
    ] as const) {
      const width = spread.up + spread.down;
      expect(Math.abs(quantile(drawn, 0.1) - (spread.value - spread.down))).toBeLessThan(0.1 * width);
      expect(Math.abs(quantile(drawn, 0.9) - (spread.value + spread.up))).toBeLessThan(0.1 * width);
    }
  });

  it('takes the grade of the gauge as its sigma, and the middle of an A, B or C scale as finer', () => {
    const span = 500 * PSI;
    expect(gaugeSdPa({ grade: '1A', spanPa: span }, 0.9 * span)).toBeCloseTo(0.01 * span, 6);
    expect(gaugeSdPa({ grade: 'B', spanPa: span }, 0.5 * span)).toBeCloseTo(0.02 * span, 6);
    expect(gaugeSdPa({ grade: 'B', spanPa: span }, 0.9 * span)).toBeCloseTo(0.03 * span, 6);
  });
});
