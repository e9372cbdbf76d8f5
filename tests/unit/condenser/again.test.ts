import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, type EstimateOk, type Reading } from '@/lib/core/condenser';
import { sceneOf } from '@/lib/core/condenser/inference/scene';
import { bubblePressure, unwrap } from '@/lib/core/refrigerants';
import { CONDITIONS, F, LEARNT, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

// Head and coil air read once more, each with another instrument.
const air = F(86);
const clean = stateAt(REACH_IN, 1, air);
const LOOKED = { coilGrade: 'bare', fanGrade: 'sound', airPathGrade: 'open' } as const;
const at = (more: Partial<Reading>): EstimateOk => {
  const e = estimate(REACH_IN, readingOf(clean, { ...LOOKED, ...more }), LEARNT, CONDITIONS);
  if (e.status !== 'ok') throw new Error(e.reason);
  return e;
};
const fault = (e: EstimateOk) => e.causes.find((c) => c.id === 'reading_fault')?.weight ?? NaN;
const gas = (e: EstimateOk) => e.causes.find((c) => c.id === 'non_condensables')?.weight ?? NaN;
const width = (e: EstimateOk) => e.conductanceLost.hi - e.conductanceLost.lo;

describe('a second gauge', () => {
  const high = { headPaGauge: clean.headPaGauge + 28 * PSI };
  it('names the reading itself where it shows what a sound machine would', () => {
    const [once, twice] = [at(high), at({ ...high, headAgainPaGauge: clean.headPaGauge })];
    expect(once.causes[0]?.id).not.toBe('reading_fault');
    expect(twice.causes[0]?.id).toBe('reading_fault');
    expect(fault(twice)).toBeGreaterThan(fault(once) + 0.4);
    expect(twice.causes[0]?.for.join()).toMatch(/Another instrument reads 1\d °F \(\d K\) off the first/);
    expect(twice.conductanceLost.value).toBeLessThan(0.15);
  });
  it('clears the gauge where it shows the same, and gas leads the more', () => {
    const [once, twice] = [at(high), at({ ...high, headAgainPaGauge: high.headPaGauge })];
    expect(fault(twice)).toBeLessThan(0.6 * fault(once));
    expect(gas(twice)).toBeGreaterThan(gas(once));
    expect(twice.causes.find((c) => c.id === 'reading_fault')?.against).toContain('Another instrument agrees with the first');
  });
  it('is asked for where a gauge may be off, and on no system whose ports are shut', () => {
    expect(at({ headPaGauge: clean.headPaGauge - 24 * PSI }).lookNext.map((l) => l.look)).toContain('headAgainPaGauge');
    const sealed = { ...REACH_IN, circuitAccess: 'sealed' } as const;
    const e = estimate(sealed, readingOf(clean, { ...LOOKED, headPaGauge: undefined, condensingClampK: clean.condensingK - 6 }), LEARNT, CONDITIONS); // prettier-ignore
    expect(e.status === 'ok' && e.lookNext.map((l) => l.look)).not.toContain('headAgainPaGauge');
  });
});

describe('a second thermometer', () => {
  it('names the reading itself where the first made a clean coil look fouled', () => {
    const cold = { airInK: air - 6, roomAirK: air - 6 };
    const [once, twice] = [at(cold), at({ ...cold, airAgainK: air })];
    expect(fault(once)).toBeLessThan(0.5);
    expect(twice.causes[0]?.id).toBe('reading_fault');
    expect(at({ ...cold, airAgainK: air - 6 }).causes[0]?.id).not.toBe('reading_fault');
  });
  it('is asked for in one word with the cause that it decides', () => {
    const warm = at({ airInK: air + 6, roomAirK: air + 6 });
    const first = warm.lookNext.find((l) => l.look !== 'offCyclePaGauge');
    expect(first?.look).toBe('airAgainK');
    expect(warm.causes.find((c) => c.id === 'reading_fault')?.next).toBe(first?.instruction);
  });
  it('never widens a band by agreeing', () => {
    for (const left of [1, 0.8, 0.6]) {
      const state = stateAt(REACH_IN, left, air);
      const one = estimate(REACH_IN, readingOf(state), cleanPrior(REACH_IN), CONDITIONS);
      const two = estimate(REACH_IN, readingOf(state, { airAgainK: air, headAgainPaGauge: state.headPaGauge }), cleanPrior(REACH_IN), CONDITIONS); // prettier-ignore
      if (one.status !== 'ok' || two.status !== 'ok') throw new Error('says nothing');
      expect(width(two)).toBeLessThan(width(one) + 0.005);
    }
  });
});

describe('a standing pressure beside a thermometer that is off', () => {
  // Air read 6 K too cold: the machine stands that much above what saturation seems to be, as if there were gas.
  it('leaves the thermometer under suspicion', () => {
    const cold = { airInK: air - 6, roomAirK: air - 6, condensingClampK: clean.condensingK - 1 };
    const standing = { offCyclePaGauge: unwrap(bubblePressure('R134a', air)) - 101325, offCycleAirK: air - 6 };
    const [silent, stood] = [at(cold), at({ ...cold, ...standing })];
    expect(fault(stood)).toBeGreaterThan(0.8 * fault(silent));
    // The true air beside it would have cleared gas.
    expect(gas(at({ ...cold, ...standing, offCycleAirK: air }))).toBeLessThan(gas(stood));
  });
});

describe('a clamp on the discharge line', () => {
  it('is taken to be short of the line by a part of how much hotter than the air it is', () => {
    const shown = (dischargeLineK: number) => sceneOf(REACH_IN, readingOf(clean, { dischargeLineK }), LEARNT, { learnt: false })?.seen.find((s) => s.channel === 'dischargeK'); // prettier-ignore
    const short = (K: number) => (shown(air + K)?.value ?? NaN) - (air + K);
    expect(short(50)).toBeCloseTo(3, 9);
    expect(short(100)).toBeCloseTo(6, 9);
    expect(short(-5)).toBe(0);
    expect(shown(air + 100)?.sd).toBeGreaterThan((shown(air + 50)?.sd ?? NaN) + 0.5);
  });

  it('leaves the gas of a far hot day more open than that of one near by', () => {
    const state = stateAt(REACH_IN, 0.9, F(75));
    const width = (hot: number) => {
      const e = estimate(REACH_IN, readingOf(state, { dischargeLineK: state.dischargeLineK - 2 }), LEARNT, {
        ...CONDITIONS,
        hotDayAirK: F(hot),
      });
      if (e.status !== 'ok' || !e.dischargeHotDayK) throw new Error('nothing is foretold');
      return e.dischargeHotDayK.now.hi - e.dischargeHotDayK.now.lo;
    };
    expect(width(110)).toBeGreaterThan(1.1 * width(76));
  });
});
