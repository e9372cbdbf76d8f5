import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, type CondenserUnit, type Estimate, type EstimateOk, type Figure, type Reading } from '@/lib/core/condenser';
import { CONDITIONS, F, LEARNT, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const air = F(85);
const of = (left: number, more: Partial<Reading> = {}) =>
  estimate(REACH_IN, readingOf(stateAt(REACH_IN, left, air), more), LEARNT, CONDITIONS);

function ok(e: Estimate): EstimateOk {
  if (e.status !== 'ok') throw new Error(e.reason);
  return e;
}
const GRADED = { coilGrade: 'matted', fanGrade: 'sound' } as const;

describe('an estimate', () => {
  it('finds nothing lost where nothing is, says so with an upper limit, and tells no negative figure', () => {
    const e = ok(of(1));
    expect(e.conductanceLost).toMatchObject({ lo: 0 });
    expect(e.conductanceLost.value).toBeLessThan(0.08);
    expect(e.coolingLostHotDay!.value).toBeLessThan(0.03);
    expect(e.extraCostPerDay!.lo).toBeGreaterThanOrEqual(0);
    expect(e.cutoutAirK!.now.value).toBeCloseTo(e.cutoutAirK!.clean.value, -1);
    expect(e.verdict).toBe('fine');
    expect(e.sentence).toMatch(/No loss to be seen: at most \d+ %/);
  });

  it('finds the loss put in, and keeps conductance and cooling apart', () => {
    const e = ok(of(0.6, GRADED));
    expect(Math.abs(e.conductanceLost.value - 0.4)).toBeLessThan(0.08);
    const now = stateAt(REACH_IN, 0.6, CONDITIONS.hotDayAirK);
    const clean = stateAt(REACH_IN, 1, CONDITIONS.hotDayAirK);
    expect(Math.abs(e.coolingLostHotDay!.value - (1 - now.coolingW / clean.coolingW))).toBeLessThan(0.06);
    expect(e.coolingLostHotDay!.value).toBeLessThan(e.conductanceLost.value / 2);
    expect(Math.abs(e.headHotDayPaGauge!.now.value / now.headPaGauge - 1)).toBeLessThan(0.06);
    expect(e.verdict).toBe('clean_it');
    expect(e.sentence).toMatch(/^Head is \d\d °F \(\d\d K\) over the air; this unit runs 2\d °F \(1\d K\) clean\. .*clean it\./);
  });

  it('puts money on the energy at the stated price', () => {
    const e = ok(of(0.6));
    expect(e.extraCostPerDay!.value).toBeCloseTo(e.extraEnergyKwhPerDay!.value * 0.2, 12);
    expect(e.extraCostPerDay!.currency).toBe('USD');
    expect(e.assumptions.join(' ')).toMatch(/0\.2 USD\/kWh/);
    expect(e.assumptions.join(' ')).toMatch(/extrapolated from tests with dust/);
  });

  it('reaches the cut-out in cooler air the more is lost', () => {
    const [half, clean] = [ok(of(0.5)).cutoutAirK!, ok(of(1)).cutoutAirK!];
    expect(half.clean.value).toBeGreaterThan(half.now.value + 4);
    const head = stateAt(REACH_IN, 1, clean.clean.value).headPaGauge;
    expect(Math.abs(head / REACH_IN.cutoutPaGauge! - 1)).toBeLessThan(0.05);
  });

  it('calls for more loss the higher the head, all else equal', () => {
    const base = readingOf(stateAt(REACH_IN, 0.9, air), { suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined });
    const losses = [0, 12, 24, 36].map(
      (psi) =>
        ok(estimate(REACH_IN, { ...base, ...GRADED, headPaGauge: base.headPaGauge! + psi * PSI }, LEARNT, CONDITIONS)).conductanceLost
          .value,
    );
    for (let i = 1; i < losses.length; i++) expect(losses[i]!).toBeGreaterThan(losses[i - 1]!);
  });

  it('never widens its band for one instrument more, and does for a coarser one or no baseline', () => {
    const width = (f: Figure) => Math.log((1 - f.lo) / (1 - f.hi));
    const seen = { ...GRADED, phase: 'before' } as const;
    const lone = { suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined, boxK: undefined };
    const few = width(ok(of(0.7, { ...seen, ...lone })).conductanceLost);
    const all = width(ok(of(0.7, seen)).conductanceLost);
    expect(all).toBeLessThan(few * 1.02);
    expect(width(ok(of(0.7, { ...seen, ...lone, gauge: { grade: 'B', spanPa: 500 * PSI } })).conductanceLost)).toBeGreaterThan(few);
    expect(
      width(ok(estimate(REACH_IN, readingOf(stateAt(REACH_IN, 0.7, air), seen), cleanPrior(REACH_IN), CONDITIONS)).conductanceLost),
    ).toBeGreaterThan(all);
  });

  it('tells what a loss costs more narrowly against readings of its own taken the same way, and most with line temperatures', () => {
    const lone = { suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined, boxK: undefined };
    const width = (f: Figure | null) => (f ? f.hi - f.lo : NaN);
    const gained = (more: Partial<Reading>) => {
      const reading = readingOf(stateAt(REACH_IN, 0.7, air), { ...GRADED, phase: 'before', ...more });
      const kind = ok(estimate(REACH_IN, reading, LEARNT, CONDITIONS));
      const own = ok(estimate(REACH_IN, reading, { ...LEARNT, means: kind.designRiseK.means }, CONDITIONS));
      return [
        width(own.coolingLostHotDay) / width(kind.coolingLostHotDay),
        width(own.extraEnergyKwhPerDay) / width(kind.extraEnergyKwhPerDay),
      ];
    };
    const [cooling = NaN, energy = NaN] = gained({});
    const [coolingAlone = NaN, energyAlone = NaN] = gained(lone);
    for (const part of [cooling, energy, coolingAlone, energyAlone]) expect(part).toBeLessThan(1);
    expect(cooling).toBeLessThan(coolingAlone);
    expect(energy).toBeLessThan(energyAlone);
  });

  it('shows no figure without a band', () => {
    const e = ok(of(0.6, GRADED));
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
  const why = (unit: Partial<CondenserUnit>, more: Partial<Reading>) => {
    const e = estimate({ ...REACH_IN, ...unit }, readingOf(state, more), LEARNT, CONDITIONS);
    return e.status === 'ok' ? 'ok' : e.reason;
  };
  it.each([
    ['no_condensing_reading', {}, { headPaGauge: undefined }],
    ['no_air_reading', {}, { airInK: undefined }],
    ['not_steady', {}, { steadyMinutes: 6 }],
    ['water_cooled', { condenserKind: 'water_cooled' }, {}],
    ['above_critical', { refrigerant: 'R744' }, {}],
    ['unknown_refrigerant', { refrigerant: 'unknown' }, {}],
    ['impossible_reading', {}, { headPaGauge: 999 * PSI }],
    ['impossible_reading', {}, { headPaGauge: 60 * PSI }],
    ['rise_too_small', {}, { airInK: state.condensingK - 1.5 }],
    // Read too early is what to mend, whatever the reading shows then.
    ['not_steady', {}, { airInK: state.condensingK - 1.5, steadyMinutes: 3 }],
  ] as const)('says %s', (reason, unit, more) => expect(why(unit, more)).toBe(reason));

  it('does not judge a coil by a head that a control holds', () => {
    const held = readingOf(state, { headPaGauge: stateAt(REACH_IN, 1, F(65)).headPaGauge, airInK: F(50) });
    const e = estimate({ ...REACH_IN, hasHeadControl: true }, held, LEARNT, CONDITIONS);
    expect(e).toMatchObject({ status: 'cannot_say', reason: 'head_control', verdict: 'cannot_say' });
    expect(e.riseK?.value).toBeGreaterThan(0);
    expect(e.sentence).toMatch(/warmer air/);
  });

  it('says what it may be where no figure can be told', () => {
    const near = estimate(REACH_IN, readingOf(state, { airInK: state.condensingK - 1.5, steadyMinutes: undefined }), LEARNT, CONDITIONS);
    expect(near).toMatchObject({ reason: 'rise_too_small', verdict: 'cannot_say' });
    expect(near.riseK?.value).toBeCloseTo(1.5, 1);
    expect(near.sentence).toMatch(/Too close to the air to tell\. Was it running under load\? It is .*the reading itself/);
    expect(near.causes.slice(0, 2).map((c) => c.id)).toContain('reading_fault');
    expect(near.causes.reduce((sum, c) => sum + c.weight, 0)).toBeCloseTo(1, 9);

    // Beyond where R-134a's tables end: a stopped fan in a hot kitchen.
    const beyond = estimate(REACH_IN, readingOf(state, { headPaGauge: 3.2e6, fanGrade: 'failed', coilGrade: 'filmed', liquidLineK: undefined, gauge: undefined }), LEARNT, CONDITIONS); // prettier-ignore
    expect(beyond).toMatchObject({ reason: 'out_of_range', verdict: 'cannot_say' });
    expect(beyond.causes[0]?.id).toBe('condenser_fan');
    expect(beyond.sentence).toMatch(/look at condenser fan, air and coil first\. It is almost surely the condenser fan/);
    // Nobody looked: it stays to be looked at, however sure the numbers are.
    const unseen = estimate(
      REACH_IN,
      readingOf(state, { headPaGauge: 3.2e6, liquidLineK: undefined, gauge: undefined }),
      LEARNT,
      CONDITIONS,
    );
    expect(unseen.causes.find((c) => c.id === 'condenser_fan')?.next).toMatch(/^Look at the condenser fan/);
    for (const text of [beyond.sentence, ...beyond.causes.flatMap((c) => [...c.for, ...c.against, c.next])])
      expect(text).not.toMatch(/NaN|undefined/);
  });

  it('keeps what it does know', () => {
    const e = estimate(REACH_IN, readingOf(state, { steadyMinutes: 5 }), LEARNT, CONDITIONS);
    expect(e.status).toBe('cannot_say');
    expect(e.condensingK?.value).toBeCloseTo(state.condensingK, 2);
  });
});
