import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, type Estimate, type EstimateOk, type Figure, type Reading } from '@/lib/core/condenser';
import { CONDITIONS, F, LEARNT, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const air = F(85);
const of = (left: number, more: Partial<Reading> = {}) =>
  estimate(REACH_IN, readingOf(stateAt(REACH_IN, left, air), more), LEARNT, CONDITIONS);

function ok(e: Estimate): EstimateOk {
  if (e.status !== 'ok') throw new Error(e.reason);
  return e;
}

describe('an estimate', () => {
  it('finds nothing lost where nothing is', () => {
    const e = ok(of(1));
    expect(Math.abs(e.conductanceLost.value)).toBeLessThan(1e-6);
    expect(Math.abs(e.coolingLostHotDay!.value)).toBeLessThan(1e-6);
    expect(Math.abs(e.extraEnergyKwhPerDay!.value)).toBeLessThan(1e-5);
    expect(e.cutoutAirK!.now.value).toBeCloseTo(e.cutoutAirK!.clean.value, 4);
    expect(e.verdict).toBe('fine');
  });

  it('finds the loss put in, and keeps conductance and cooling apart', () => {
    const e = ok(of(0.6));
    expect(e.conductanceLost.value).toBeCloseTo(0.4, 6);
    const now = stateAt(REACH_IN, 0.6, CONDITIONS.hotDayAirK);
    const clean = stateAt(REACH_IN, 1, CONDITIONS.hotDayAirK);
    expect(e.coolingLostHotDay!.value).toBeCloseTo(1 - now.coolingW / clean.coolingW, 4);
    expect(e.coolingLostHotDay!.value).toBeLessThan(e.conductanceLost.value / 2);
    expect(e.headHotDayPaGauge!.now.value / now.headPaGauge).toBeCloseTo(1, 4);
    expect(e.dischargeHotDayK!.now.value).toBeCloseTo(now.dischargeLineK, 1);
    expect(e.verdict).toBe('clean_it');
    expect(e.sentence).toMatch(/^Head is \d\d °F \(\d\d K\) over the air; this unit runs 2\d °F \(1\d K\) clean\. .*clean it\.$/);
  });

  it('puts money on the energy at the stated price', () => {
    const e = ok(of(0.6));
    expect(e.extraCostPerDay!.value).toBeCloseTo(e.extraEnergyKwhPerDay!.value * 0.2, 12);
    expect(e.extraCostPerDay!.currency).toBe('USD');
    expect(e.assumptions.join(' ')).toMatch(/0\.2 USD\/kWh/);
    expect(e.assumptions.join(' ')).toMatch(/extrapolated from tests with dust/);
  });

  it('reaches the cut-out at the air temperature that the balance says', () => {
    const e = ok(of(0.5));
    const trip = e.cutoutAirK!.now.value;
    expect(stateAt(REACH_IN, 0.5, trip).headPaGauge / REACH_IN.cutoutPaGauge!).toBeCloseTo(1, 5);
    expect(e.cutoutAirK!.clean.value).toBeGreaterThan(trip + 5);
  });

  it('calls for more loss the higher the head, all else equal', () => {
    const base = readingOf(stateAt(REACH_IN, 0.9, air));
    const losses = [0, 8, 16, 24, 40].map(
      (psi) => ok(estimate(REACH_IN, { ...base, headPaGauge: base.headPaGauge! + psi * PSI }, LEARNT, CONDITIONS)).conductanceLost.value,
    );
    for (let i = 1; i < losses.length; i++) expect(losses[i]!).toBeGreaterThan(losses[i - 1]!);
  });

  it('widens its band with a coarser gauge, a clamp instead of a gauge, room air, and no baseline', () => {
    const width = (f: Figure) => f.hi - f.lo;
    const state = stateAt(REACH_IN, 0.7, air);
    const fine = width(ok(of(0.7)).conductanceLost);
    const coarse = width(ok(of(0.7, { gauge: { grade: 'B', spanPa: 500 * PSI } })).conductanceLost);
    const clamp = width(ok(of(0.7, { headPaGauge: undefined, condensingClampK: state.condensingK - 1 })).conductanceLost);
    const room = width(ok(of(0.7, { airInK: undefined, roomAirK: air - 1 })).conductanceLost);
    const prior = width(ok(estimate(REACH_IN, readingOf(state), cleanPrior(REACH_IN), CONDITIONS)).conductanceLost);
    for (const wider of [coarse, clamp, room, prior]) expect(wider).toBeGreaterThan(fine * 1.2);
  });

  it('uses a measured liquid temperature before the usual subcooling', () => {
    const state = stateAt(REACH_IN, 0.7, air);
    const h = (liquidLineK: number) => ok(of(0.7, { liquidLineK })).designRiseK.value;
    // Warmer liquid carries less heat away at the same rise: less conductance, a larger rise at design load.
    expect(h(state.liquidLineK + 4)).toBeGreaterThan(h(state.liquidLineK) * 1.005);
  });

  it('shows no figure without a band', () => {
    const e = ok(of(0.6));
    const figures = [e.condensingK, e.condensingDewK, e.riseK, e.cleanRiseK, e.designRiseK, e.conductanceLost, e.coolingLostHotDay!, e.extraEnergyKwhPerDay!, e.extraCostPerDay!, e.dischargeHotDayK!.now, e.headHotDayPaGauge!.clean, e.cutoutAirK!.now]; // prettier-ignore
    for (const f of figures) {
      expect(f.level).toBe(0.8);
      expect(f.lo).toBeLessThan(f.value);
      expect(f.hi).toBeGreaterThan(f.value);
    }
  });
});

describe("a reading that can't say", () => {
  const state = stateAt(REACH_IN, 0.8, air);
  const why = (unit: Partial<typeof REACH_IN>, more: Partial<Reading>) => {
    const e = estimate({ ...REACH_IN, ...unit }, readingOf(state, more), LEARNT, CONDITIONS);
    return e.status === 'ok' ? 'ok' : e.reason;
  };
  it.each([
    ['no_condensing_reading', {}, { headPaGauge: undefined }],
    ['no_air_reading', {}, { airInK: undefined }],
    ['not_steady', {}, { steadyMinutes: 6 }],
    ['water_cooled', { condenserKind: 'water_cooled' }, {}],
    ['unknown_refrigerant', { refrigerant: 'R999' }, {}],
    ['impossible_reading', {}, { headPaGauge: 999 * PSI }],
    ['impossible_reading', {}, { headPaGauge: 60 * PSI }],
    ['rise_too_small', {}, { airInK: state.condensingK - 1.5 }],
  ] as const)('says %s', (reason, unit, more) => expect(why(unit, more)).toBe(reason));

  it('does not judge a coil by a head that a control holds', () => {
    const cold = stateAt({ ...REACH_IN, hasHeadControl: true }, 1, F(50));
    const held = readingOf(cold, { headPaGauge: stateAt(REACH_IN, 1, F(65)).headPaGauge });
    const e = estimate({ ...REACH_IN, hasHeadControl: true }, held, LEARNT, CONDITIONS);
    expect(e).toMatchObject({ status: 'cannot_say', reason: 'head_control', verdict: 'cannot_say' });
    expect(e.riseK?.value).toBeGreaterThan(0);
    expect(e.sentence).toMatch(/warmer air/);
  });

  it('keeps what it does know', () => {
    const e = estimate(REACH_IN, readingOf(state, { steadyMinutes: 5 }), LEARNT, CONDITIONS);
    expect(e.status).toBe('cannot_say');
    expect(e.condensingK?.value).toBeCloseTo(state.condensingK, 6);
  });
});
