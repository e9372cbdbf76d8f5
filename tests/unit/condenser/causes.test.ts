import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, type CauseId, type CondenserUnit, type EstimateOk, type PastLoss, type Reading } from '@/lib/core/condenser';
import { usualBoxK } from '@/lib/core/condenser/from-record';
import { bubblePressure, unwrap } from '@/lib/core/refrigerants';
import { CONDITIONS, F, LEARNT, PSI, REACH_IN, readingOf, settledReading, stateAt } from '../../support/condenser';

const air = F(88);
const bad = stateAt(REACH_IN, 0.55, air);
const clean = stateAt(REACH_IN, 1, air);
const LOOKED = { coilGrade: 'packed', fanGrade: 'sound' } as const;
/** Head and air alone, as with one gauge. */
const lone = (more: Partial<Reading> = {}): Partial<Reading> => ({
  suctionPaGauge: undefined, suctionLineK: undefined, liquidLineK: undefined, boxK: undefined, ...more,
}); // prettier-ignore

function judged(reading: Reading, history: readonly PastLoss[] = [], unit = REACH_IN, baseline = LEARNT): EstimateOk {
  const e = estimate(unit, reading, baseline, { ...CONDITIONS, boxK: unit.boxSetPointK }, { history });
  if (e.status !== 'ok') throw new Error(e.reason);
  return e;
}
const lead = (e: EstimateOk) => e.causes[0]!.id;
const weight = (e: EstimateOk, ...ids: CauseId[]) => e.causes.reduce((s, c) => s + (ids.includes(c.id) ? c.weight : 0), 0);
const read = (more: Partial<Reading>): Reading => ({ at: Date.UTC(2026, 5, 1), phase: 'before', steadyMinutes: 20, ...more });

describe('is it the coil', () => {
  it('never says clean it before coil and condenser fan were looked at, but what to look at', () => {
    for (const seen of [{}, { coilGrade: 'packed' }, { fanGrade: 'sound' }] as const) {
      const e = judged(readingOf(bad, lone(seen)));
      expect(e.verdict).toBe('look_first');
      expect(e.sentence).toMatch(/Look first: /);
      expect(e.causes.reduce((s, c) => s + c.weight, 0)).toBeCloseTo(1, 9);
    }
    const e = judged(readingOf(bad, lone(LOOKED)));
    expect(e.verdict).toBe('clean_it');
    expect(lead(e)).toBe('coil_fouling');
  });

  it('asks next for what would tell most, and for no gauge on a sealed unit', () => {
    const sealed = judged(read({ condensingClampK: bad.condensingK - 1, airInK: air }), [], { ...REACH_IN, circuitAccess: 'sealed' });
    expect(sealed.lookNext.length).toBeGreaterThan(0);
    for (const l of sealed.lookNext) expect(['headPaGauge', 'suctionPaGauge', 'offCyclePaGauge']).not.toContain(l.look);
    const bits = sealed.lookNext.map((l) => l.bits);
    expect([...bits].sort((a, b) => b - a)).toEqual(bits);
  });

  it('asks for the standing pressure on a sealed unit whose gauges are on', () => {
    const sealed = { ...REACH_IN, circuitAccess: 'sealed' } as const;
    const next = (more: Partial<Reading>) => judged(readingOf(clean, lone({ ...LOOKED, coilGrade: 'bare', ...more })), [], sealed).lookNext;
    const standing = next({ condensingClampK: clean.condensingK - 4 }).find((l) => l.look === 'offCyclePaGauge');
    expect(standing?.instruction).toMatch(/both gauges must agree/);
    const clamped = next({ headPaGauge: undefined, condensingClampK: clean.condensingK - 4 });
    expect(clamped.map((l) => l.look)).not.toContain('offCyclePaGauge');
  });

  it('takes a standing pressure a few percent over saturation as a word for gas, and more of it as a stronger one', () => {
    const saturation = unwrap(bubblePressure('R134a', air));
    const gas = (over: number) =>
      weight(judged(readingOf(bad, lone({ offCyclePaGauge: saturation * (1 + over) - 101325, offCycleAirK: air }))), 'non_condensables');
    const silent = weight(judged(readingOf(bad, lone())), 'non_condensables');
    expect(gas(0)).toBeLessThan(silent);
    expect(gas(0.09)).toBeGreaterThan(silent);
    expect(gas(0.15)).toBeGreaterThan(gas(0.09));
  });

  it('holds the cleaning back for a standing pressure above saturation', () => {
    const saturation = unwrap(bubblePressure('R134a', air)) - 101325;
    const withAir = judged(readingOf(bad, lone({ offCyclePaGauge: saturation * 1.3, offCycleAirK: air })));
    const without = judged(readingOf(bad, lone({ offCyclePaGauge: saturation, offCycleAirK: air })));
    expect(weight(withAir, 'non_condensables')).toBeGreaterThan(0.5);
    expect(weight(without, 'non_condensables')).toBeLessThan(0.05);
    expect(withAir.causes.find((c) => c.id === 'non_condensables')!.for.join()).toMatch(/Standing pressure/);
  });

  it('takes a jump for the fan or its air, and a trend for the coil', () => {
    const day = 86_400_000;
    const at = readingOf(bad).at;
    const jump = judged(readingOf(bad, lone()), [{ at: at - 3 * day, lost: 0.02, sd: 0.04 }]);
    const trend = judged(
      readingOf(bad, lone()),
      [60, 40, 20].map((d, i) => ({ at: at - d * day, lost: 0.2 + 0.1 * i, sd: 0.05 })),
    );
    expect(weight(trend, 'coil_fouling')).toBeGreaterThan(weight(jump, 'coil_fouling') + 0.3);
    expect(weight(jump, 'condenser_fan', 'blocked_air')).toBeGreaterThan(weight(trend, 'condenser_fan', 'blocked_air'));
  });

  it('believes the eye: a failed fan, or a bare coil', () => {
    expect(lead(judged(readingOf(bad, lone({ coilGrade: 'filmed', fanGrade: 'failed' }))))).toBe('condenser_fan');
    const bare = judged(readingOf(bad, { coilGrade: 'bare', fanGrade: 'sound' }));
    expect(bare.verdict).not.toBe('clean_it');
    expect(lead(bare)).not.toBe('coil_fouling');
  });

  it('takes air coming round for likelier the more it is over the room, from a few kelvin on', () => {
    const over = (K: number) => weight(judged(readingOf(clean, { ...LOOKED, coilGrade: 'bare', roomAirK: air - K })), 'recirculation');
    const [none, few, more] = [over(0.5), over(3.5), over(7)] as const;
    expect(none).toBeLessThan(0.1);
    expect(few).toBeGreaterThan(0.5);
    expect(more).toBeGreaterThan(few);
  });

  it('sees hot air coming round again even with a clean coil', () => {
    const e = judged(readingOf(clean, { roomAirK: air - 9 }));
    expect(lead(e)).toBe('recirculation');
    expect(e.conductanceLost.value).toBeLessThan(0.08);
  });

  it('names a low charge from starved lines', () => {
    const valve: CondenserUnit = { ...REACH_IN, expansion: 'valve' };
    const lines = { liquidLineK: clean.condensingK - 4.5, suctionLineK: clean.suctionLineK + 14 };
    const pressures = { headPaGauge: clean.headPaGauge - 120_000, suctionPaGauge: clean.suctionPaGauge - 50_000 };
    const e = judged(readingOf(clean, { ...lines, ...pressures, boxK: REACH_IN.boxSetPointK + 3 }), [], valve);
    expect(lead(e)).toBe('low_charge');
    expect(e.sentence).toMatch(/low charge.*can hide a fouled coil/);
  });

  it('does not tell a cleaned coil to be cleaned', () => {
    const e = judged(readingOf(bad, { phase: 'after', coilGrade: 'bare', fanGrade: 'sound' }));
    expect(e.verdict).not.toBe('clean_it');
  });
});

describe('what used to be wrong', () => {
  const freezer: CondenserUnit = { ...REACH_IN, refrigerant: 'R404A', kind: 'walk_in_freezer', application: 'low', expansion: 'valve', boxSetPointK: F(-5), cutoutPaGauge: undefined }; // prettier-ignore
  const walkIn: CondenserUnit = { ...freezer, kind: 'walk_in_cooler', application: 'medium', boxSetPointK: F(36) };

  it('an unknown head control on an outdoor walk-in in cold air: no word on the coil', () => {
    const outdoors: CondenserUnit = { ...walkIn, placement: 'outdoors', hasHeadControl: undefined };
    const e = estimate(
      outdoors,
      read({ headPaGauge: 185 * PSI, airInK: F(45) }),
      { cleanRiseK: 12.5, sdK: 2, readings: 0 },
      { ...CONDITIONS, boxK: F(36) },
    );
    expect(e).toMatchObject({ status: 'cannot_say', reason: 'head_control' });
  });

  it('an ice machine is reckoned at freezing, and half fouled is not fine', () => {
    expect(usualBoxK('ice_machine', 'low')).toBeCloseTo(F(30), 1);
    const unit: CondenserUnit = { ...freezer, kind: 'ice_machine', boxSetPointK: usualBoxK('ice_machine', 'low') };
    const e = judged(read({ headPaGauge: 395 * PSI, suctionPaGauge: 41 * PSI, airInK: F(92) }), [], unit);
    expect(e.verdict).toBe('look_first');
    expect(weight(e, 'nothing')).toBeLessThan(0.2);
    expect(e.assumptions.join()).toMatch(/five minutes or more after a harvest/);
  });

  it('a low charge by manifold alone is not "no loss"', () => {
    const e = judged(read({ headPaGauge: 117 * PSI, suctionPaGauge: 5 * PSI, airInK: F(86) }));
    expect(e.verdict).not.toBe('fine');
    expect(weight(e, 'nothing')).toBeLessThan(0.35);
    expect(weight(e, 'low_charge', 'evaporator_fan', 'evaporator_coil')).toBeGreaterThan(0.5);
    expect(e.coolingLostHotDay!.value).toBeGreaterThan(0.1);
  });

  it('an iced coil or its fan is not a heavy load', () => {
    const e = judged(
      read({ headPaGauge: 215 * PSI, suctionPaGauge: 3 * PSI, airInK: F(80), boxK: F(10), suctionLineK: F(-35) }),
      [],
      freezer,
    );
    expect(weight(e, 'evaporator_coil', 'evaporator_fan')).toBeGreaterThan(0.8);
    expect(weight(e, 'high_load')).toBeLessThan(0.05);
  });

  it('silence on how long it ran widens, and is asked about', () => {
    const judgedReading = judged(readingOf(bad, lone(LOOKED)));
    const silent = judged(readingOf(bad, lone({ ...LOOKED, steadyMinutes: undefined })));
    const width = (e: EstimateOk) => e.conductanceLost.hi - e.conductanceLost.lo;
    expect(width(silent)).toBeGreaterThan(width(judgedReading));
    expect(weight(silent, 'not_steady')).toBeGreaterThan(weight(judgedReading, 'not_steady'));
    expect(silent.assumptions.join()).toMatch(/steady running not noted/);
  });

  it('a room thermometer alone does not call a loss sure', () => {
    const e = judged(read({ headPaGauge: bad.headPaGauge, roomAirK: air - 9 }));
    expect(e.conductanceLost.hi - e.conductanceLost.lo).toBeGreaterThan(0.15);
    expect(weight(e, 'recirculation')).toBeGreaterThan(0.05);
  });

  it('131 °F by gauge against 114 °F at the bend is air or a bad gauge; 97 against 140 °F is a bad reading', () => {
    const gas = judged(read({ headPaGauge: 199 * PSI, condensingClampK: F(114), airInK: F(88) }));
    expect(weight(gas, 'non_condensables', 'reading_fault')).toBeGreaterThan(0.9);
    const odd = judged(read({ headPaGauge: 110 * PSI, condensingClampK: F(140), airInK: F(80) }));
    expect(lead(odd)).toBe('reading_fault');
    expect(odd.doubts.map((d) => d.field)).toContain('condensingClampK');
  });

  it('a clean machine read whole, a little more subcooled than usual, has nothing wrong before anything else', () => {
    const read = readingOf(stateAt({ ...REACH_IN, expansion: 'valve' }, 1, air));
    const e = judged(read, [], { ...REACH_IN, expansion: 'valve' });
    expect(e.verdict).toBe('fine');
    expect(lead(e)).toBe('nothing');
  });

  describe.each(['R134a', 'R290'])('a reach-in of %s with a tube, never read before', (refrigerant) => {
    const unit = { ...REACH_IN, refrigerant };
    const fresh = (reading: Reading) => judged(reading, [], unit, cleanPrior(unit));
    it.each([20, 25, 30, 35, 40])('has nothing wrong that is sound in air of %i °C', (celsius) => {
      const e = fresh(settledReading(unit, 273.15 + celsius));
      expect(e.verdict).toBe('fine');
      expect(lead(e)).toBe('nothing');
      expect(weight(e, 'overcharge', 'low_charge')).toBeLessThan(0.2);
    });
    it.each([25, 30, 35])('is overfilled that is so, in air of %i °C', (celsius) => {
      expect(lead(fresh(settledReading(unit, 273.15 + celsius, 0.28)))).toBe('overcharge');
    });
    it('is fine whose tube hangs free of the suction line, which is cold then', () => {
      const bare = readingOf(stateAt(unit, 1, air), { coilGrade: 'bare', fanGrade: 'sound', airPathGrade: 'open' });
      expect(fresh(bare).verdict).toBe('fine');
      expect(weight(fresh(bare), 'overcharge')).toBeLessThan(0.5);
    });
  });

  it('liquid at saturation behind a receiver is a low charge: gas condenses in the line before the line cools any liquid', () => {
    const valve: CondenserUnit = { ...REACH_IN, refrigerant: 'R404A', kind: 'walk_in_cooler', expansion: 'valve', boxSetPointK: F(36) };
    const sound = stateAt(valve, 1, air);
    const bubble = sound.condensingK - 0.2;
    const low = (liquidLineK: number) =>
      weight(
        judged({ ...readingOf(sound, { coilGrade: 'bare', fanGrade: 'sound' }), liquidLineK }, [], valve, cleanPrior(valve)),
        'low_charge',
      );
    expect(low(bubble - 4)).toBeLessThan(0.3);
    expect(low(bubble)).toBeGreaterThan(0.5);
    expect(low(bubble)).toBeGreaterThan(low(bubble - 2));
  });

  describe('one instrument that is off', () => {
    const walkIn: CondenserUnit = { ...REACH_IN, refrigerant: 'R404A', kind: 'walk_in_cooler', expansion: 'valve', boxSetPointK: F(36) };
    const sound = readingOf(stateAt(walkIn, 1, air), { coilGrade: 'bare', fanGrade: 'sound', airPathGrade: 'open' });
    const at = (more: Partial<Reading>) => judged({ ...sound, ...more }, [], walkIn, cleanPrior(walkIn));
    const fault = (more: Partial<Reading>) => weight(at(more), 'reading_fault');

    it('is thought of where all hangs together only without it: a coil that gives off far more than it can clean', () => {
      expect(fault({})).toBeLessThan(0.03);
      expect(lead(at({ headPaGauge: sound.headPaGauge! * 0.85 }))).toBe('reading_fault');
      const warm = { airInK: sound.airInK! + 7, roomAirK: sound.airInK! + 7 };
      expect(fault(warm)).toBeGreaterThan(10 * fault({}));
    });

    it('and a loss on a coil and fan that were seen clean; not where the coil was seen caked', () => {
      const cold = { airInK: sound.airInK! - 7, roomAirK: sound.airInK! - 7 };
      expect(fault(cold)).toBeGreaterThan(3 * fault({}));
      const caked = fault({ ...cold, coilGrade: 'packed' });
      expect(caked).toBeLessThan(0.1 * fault(cold));
      expect(lead(at({ ...cold, coilGrade: 'packed' }))).toBe('coil_fouling');
    });
  });

  it('an unknown refrigerant is said as such, and water is not asked about air', () => {
    const unknown = estimate({ ...REACH_IN, refrigerant: 'unknown' }, read({ headPaGauge: 200 * PSI, airInK: air }), LEARNT, CONDITIONS);
    expect(unknown).toMatchObject({ status: 'cannot_say', reason: 'unknown_refrigerant', doubts: [] });
    const water = estimate(
      { ...REACH_IN, condenserKind: 'water_cooled' },
      read({ headPaGauge: 150 * PSI, airInK: F(120) }),
      LEARNT,
      CONDITIONS,
    );
    expect(water.sentence).toMatch(/not estimated/);
    expect(water.doubts).toEqual([]);
  });
});
