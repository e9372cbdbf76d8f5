import { describe, expect, it } from 'vitest';
import {
  cleanPrior,
  conductanceOf,
  estimate,
  steadyState,
  updateBaseline,
  type CleanBaseline,
  type CondenserUnit,
  type Estimate,
  type Reading,
} from '@/lib/core/condenser';
import { CONDITIONS, F, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const prior = cleanPrior(REACH_IN);
/** A unit whose clean rise is not the usual one. */
function cleaned(riseK: number, airF: number, baseline: CleanBaseline = prior): Estimate {
  const state = steadyState(REACH_IN, conductanceOf(REACH_IN, riseK)!, { airK: F(airF), boxK: F(38) });
  if (state.status !== 'ok') throw new Error(state.message);
  return estimate(REACH_IN, readingOf(state, { phase: 'after' }), baseline, CONDITIONS);
}

describe('what is believed of a clean coil', () => {
  it('starts from the kind of equipment', () => {
    expect(prior.readings).toBe(0);
    expect(prior.cleanRiseK * 1.8).toBeCloseTo(25, 6);
    const remote = cleanPrior({ ...REACH_IN, kind: 'remote_condensing_unit', application: 'low' });
    expect(remote.cleanRiseK * 1.8).toBeGreaterThanOrEqual(10);
    expect(remote.cleanRiseK * 1.8).toBeLessThanOrEqual(15);
  });

  it('moves to the unit and grows surer with each reading after a cleaning, in any weather', () => {
    const own = 11;
    let belief = prior;
    let last = belief.sdK / belief.cleanRiseK;
    for (const airF of [70, 95, 80, 88]) {
      belief = updateBaseline(belief, cleaned(own, airF, belief));
      expect(belief.sdK / belief.cleanRiseK).toBeLessThanOrEqual(last);
      last = belief.sdK / belief.cleanRiseK;
    }
    expect(belief.readings).toBe(4);
    expect(Math.abs(belief.cleanRiseK - own)).toBeLessThan(1);
    expect(last).toBeGreaterThanOrEqual(0.025 - 1e-12);
  });

  it('is the conjugate normal update in the logarithm', () => {
    const after = cleaned(12.5, 85);
    if (after.status !== 'ok') throw new Error(after.reason);
    const { value, repeatSd } = after.designRiseK;
    const own = Math.hypot(repeatSd, 0.04);
    const sd0 = prior.sdK / prior.cleanRiseK;
    const mean = (Math.log(prior.cleanRiseK) / sd0 ** 2 + Math.log(value) / own ** 2) / (1 / sd0 ** 2 + 1 / own ** 2);
    expect(updateBaseline(prior, after).cleanRiseK).toBeCloseTo(Math.exp(mean), 9);
  });

  it('lets errors that stay with the unit cancel only against readings taken the same way', () => {
    const first = updateBaseline(prior, cleaned(12, 85));
    expect(first.means).toMatch(/gauge, coil air, suction/);
    const width = (headOnly: boolean, baseline: CleanBaseline) => {
      const full = readingOf(stateAt(REACH_IN, 0.8, F(85)));
      const reading = headOnly ? { ...full, suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined } : full;
      const e = estimate(REACH_IN, reading, baseline, CONDITIONS);
      return e.status === 'ok' ? e.conductanceLost.hi - e.conductanceLost.lo : NaN;
    };
    const otherwise = { ...first, means: 'gauge, coil air, no suction, no liquid' };
    expect(width(false, first)).toBeLessThan(width(false, otherwise));
    expect(width(true, otherwise)).toBeLessThan(width(true, first));
  });

  describe('knows the machine beside its coil', () => {
    const walkIn: CondenserUnit = { ...REACH_IN, refrigerant: 'R404A', kind: 'walk_in_cooler', expansion: 'valve', boxSetPointK: F(36) };
    const kind = cleanPrior(walkIn);
    const sound = stateAt(walkIn, 1, F(85));
    /** Sound, but its liquid leaves warmer and its discharge gas hotter than usual for the kind. */
    const itsWay: Partial<Reading> = { liquidLineK: sound.liquidLineK + 2, dischargeLineK: F(190) };
    const ask = (more: Partial<Reading>, baseline: CleanBaseline) => estimate(walkIn, readingOf(sound, more), baseline, CONDITIONS);
    const after = ask({ ...itsWay, phase: 'after' }, kind);
    const learnt = [1, 2].reduce((b) => updateBaseline(b, after), kind);
    const weight = (e: Estimate, id: string) => e.causes.find((c) => c.id === id)?.weight ?? NaN;

    it('as its readings after cleanings showed it, only what they could tell', () => {
      expect(learnt.own?.charge).toBeLessThan(0);
      expect(learnt.own?.overK).toBeGreaterThan(2);
      const head = ask({ phase: 'after', suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined }, kind);
      expect(updateBaseline(kind, head).own).toBeUndefined();
      expect(updateBaseline(learnt, head).own).toEqual(learnt.own);
    });

    it('so that its own way is no fault, and a leak from there shows sooner', () => {
      const [before, now] = [ask(itsWay, kind), ask(itsWay, learnt)];
      expect(weight(now, 'nothing')).toBeGreaterThan(weight(before, 'nothing'));
      const leaking = { ...itsWay, liquidLineK: itsWay.liquidLineK! + 1.5, suctionLineK: sound.suctionLineK + 5 };
      expect(weight(ask(leaking, learnt), 'low_charge')).toBeGreaterThan(2 * weight(now, 'low_charge'));
    });

    it('takes nothing of its ways from a reading far off its coil, and moves by the mean', () => {
      if (after.status !== 'ok') throw new Error(after.reason);
      const far = { ...after, designRiseK: { ...after.designRiseK, value: 60, lo: 58, hi: 62, own: { overK: 99 } } };
      expect(updateBaseline(learnt, far).own).toEqual(learnt.own);
      const twice = { ...after, designRiseK: { ...after.designRiseK, own: { overK: (learnt.own?.overK ?? 0) + 3 } } };
      expect(updateBaseline(learnt, twice).own?.overK).toBeCloseTo((learnt.own?.overK ?? 0) + 1, 6);
    });
  });

  it('takes a reading kept without its repeat error whole', () => {
    const { value, lo, hi } = { value: 12, lo: 10.8, hi: 13.3 };
    const kept = updateBaseline(prior, { status: 'ok', designRiseK: { value, lo, hi, level: 0.8 } });
    expect(kept.cleanRiseK).toBeLessThan(prior.cleanRiseK);
    expect(kept.readings).toBe(1);
  });

  it('hardly believes a cleaning that left twice the rise, and not at all a reading that could not say', () => {
    const sure = { ...prior, sdK: 0.5, readings: 5 };
    expect(updateBaseline(sure, cleaned(27, 85, sure)).cleanRiseK - sure.cleanRiseK).toBeLessThan(0.4);
    const unsaid = estimate(REACH_IN, readingOf(stateAt(REACH_IN, 1, F(85)), { steadyMinutes: 2 }), sure, CONDITIONS);
    expect(updateBaseline(sure, unsaid)).toBe(sure);
  });
});
