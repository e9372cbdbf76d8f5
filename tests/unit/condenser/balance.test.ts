import { describe, expect, it } from 'vitest';
import { cleanPrior, conductanceOf, headAgainstAir, steadyState, type CondenserUnit } from '@/lib/core/condenser';
import { REFRIGERANT_IDS } from '@/lib/core/refrigerants';
import { increasingRoot } from '@/lib/core/condenser/machine/root';
import { F, REACH_IN, stateAt } from '../../support/condenser';

/** CO₂ alone has no place here: above 31 °C it does not condense. It is listed as a component of blends. */
const CONDENSING = REFRIGERANT_IDS.filter((id) => id !== 'R744');
const UNITS: CondenserUnit[] = CONDENSING.flatMap((refrigerant) => [
  { ...REACH_IN, refrigerant, cutoutPaGauge: undefined },
  {
    ...REACH_IN,
    refrigerant,
    kind: 'walk_in_freezer',
    application: 'low',
    boxSetPointK: F(-5),
    cutoutPaGauge: undefined,
  },
]);

describe('the balance of evaporator, compressor and condenser', () => {
  it.each(UNITS.map((u) => [`${u.refrigerant} ${u.kind}`, u] as const))('closes to 1e-9 and is ordered: %s', (_, unit) => {
    const states = [1, 0.8, 0.6, 0.45].map((left) => stateAt(unit, left, F(85)));
    for (const s of states) {
      expect(Math.abs(s.coolingW + s.powerW - s.shellW - s.heatRejectedW) / s.heatRejectedW).toBeLessThan(1e-9);
      expect(Math.abs(s.conductanceWK * s.riseK - s.heatRejectedW) / s.heatRejectedW).toBeLessThan(1e-9);
      expect(s.shellW).toBeGreaterThan(0);
      expect(s.dischargeLineK).toBeGreaterThan(s.condensingDewK);
      expect(s.evaporatingDewK).toBeLessThan(s.boxK);
    }
    for (let i = 1; i < states.length; i++) {
      const [better, worse] = [states[i - 1]!, states[i]!];
      expect(worse.headPa).toBeGreaterThan(better.headPa);
      expect(worse.coolingW).toBeLessThan(better.coolingW);
      expect(worse.coolingW / worse.powerW).toBeLessThan(better.coolingW / better.powerW);
    }
  });

  it('raises head and cuts cooling as the air warms', () => {
    const states = [60, 75, 90, 105].map((t) => stateAt(REACH_IN, 0.8, F(t)));
    for (let i = 1; i < states.length; i++) {
      expect(states[i]!.headPa).toBeGreaterThan(states[i - 1]!.headPa);
      expect(states[i]!.coolingW).toBeLessThan(states[i - 1]!.coolingW);
    }
  });

  it('finds no root of what has no numbers, and says at once that it does not', () => {
    expect(increasingRoot(() => NaN, { lo: 0, hi: 4, start: 1, tolerance: 1e-6 })).toMatchObject({
      status: 'not_converged',
      iterations: 1,
    });
  });

  it('does its nominal cooling at the design point', () => {
    const s = stateAt({ ...REACH_IN, nominalCoolingW: 640 }, 1, 305.37);
    expect(s.coolingW / 640).toBeCloseTo(1, 3);
    expect(s.riseK).toBeCloseTo(cleanPrior(REACH_IN).cleanRiseK, 1);
  });

  it('says so when head would leave the range, and for a refrigerant without numbers', () => {
    const clean = conductanceOf(REACH_IN, 13)!;
    expect(steadyState(REACH_IN, clean * 0.02, { airK: F(110), boxK: F(38) }).status).toBe('out_of_range');
    expect(steadyState(REACH_IN, NaN, { airK: F(90), boxK: F(38) }).status).toBe('out_of_range');
    expect(steadyState({ ...REACH_IN, refrigerant: 'R999' }, clean, { airK: F(90), boxK: F(38) }).status).toBe('unknown_refrigerant');
  });

  it('draws head against air through the same states', () => {
    const clean = conductanceOf(REACH_IN, cleanPrior(REACH_IN).cleanRiseK)!;
    const airs = [60, 75, 90, 105].map(F);
    const line = headAgainstAir(REACH_IN, clean, airs);
    expect(line).toHaveLength(4);
    line.forEach((p, i) => {
      const exact = stateAt(REACH_IN, 1, airs[i]!).headPaGauge;
      expect(Math.abs(p.headPaGauge / exact - 1)).toBeLessThan(1e-4);
    });
  });
});
