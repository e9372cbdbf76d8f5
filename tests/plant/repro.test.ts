import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, questionReading, type CondenserUnit, type Conditions, type Reading } from '../../lib/core/condenser';
import { condenserUnitOf, usualBoxK } from '../../lib/core/condenser/from-record';

// Readings that once got a wrong answer, as somebody would type them.
const PSI = 6894.757293168;
const psig = (x: number) => x * PSI;
const F = (f: number) => (f + 459.67) / 1.8;
const REACH_IN: CondenserUnit = {
  refrigerant: 'R134a', kind: 'reach_in', application: 'medium', expansion: 'capillary', circuitAccess: 'ports',
  condenserKind: 'fin_and_tube', placement: 'line', boxSetPointK: F(38), altitudeM: 0,
}; // prettier-ignore
const OUTDOORS: CondenserUnit = { ...REACH_IN, refrigerant: 'R404A', kind: 'walk_in_cooler', expansion: 'valve', placement: 'outdoors' };
const FREEZER: CondenserUnit = { ...REACH_IN, refrigerant: 'R404A', application: 'low', boxSetPointK: F(0) };
const CONDITIONS: Conditions = { hotDayAirK: F(95), boxK: F(38), energyPricePerKwh: 0.15, currency: 'USD' };

const ask = (unit: CondenserUnit, reading: Partial<Reading>, boxK = unit.boxSetPointK) =>
  estimate(unit, { at: 0, phase: 'before', ...reading }, cleanPrior(unit), { ...CONDITIONS, boxK });
const first = (e: ReturnType<typeof ask>) => [...e.causes].sort((a, b) => b.weight - a.weight)[0]?.id as string | undefined;

describe('readings that once got a wrong answer', () => {
  it('keeps "not known" of a head-pressure control, and asks for no cleaning in the cold', () => {
    const kept = condenserUnitOf({ kind: 'walk_in_cooler', refrigerant: 'R404A', placement: 'outdoors', headControl: null }, {});
    expect(kept.hasHeadControl).toBeUndefined();
    expect(ask(OUTDOORS, { headPaGauge: psig(185), airInK: F(45), steadyMinutes: 20 }).verdict).not.toBe('clean_it');
  });

  it('reckons an ice machine at freezing, whatever its application says', () => {
    expect(usualBoxK('ice_machine', 'low')).toBeGreaterThan(F(27));
  });

  it('does not call a half-fouled ice machine fine', () => {
    const ice: CondenserUnit = {
      ...OUTDOORS,
      kind: 'ice_machine',
      application: 'low',
      placement: 'line',
      boxSetPointK: usualBoxK('ice_machine', 'low'),
    };
    const e = ask(ice, { headPaGauge: psig(395), suctionPaGauge: psig(41), airInK: F(92), steadyMinutes: 15 });
    expect(e.verdict).not.toBe('fine');
  });

  it('sees a low charge by the manifold alone', () => {
    const e = ask(REACH_IN, { headPaGauge: psig(117), suctionPaGauge: psig(5), airInK: F(86), steadyMinutes: 20 });
    expect(e.verdict).not.toBe('fine');
    expect(first(e)).toBe('low_charge');
  });

  it('sends a starved freezer with little superheat to its evaporator, not to its load', () => {
    const e = ask(FREEZER, {
      headPaGauge: psig(215),
      suctionPaGauge: psig(3),
      suctionLineK: F(-33),
      airInK: F(82),
      boxK: F(10),
      steadyMinutes: 25,
    });
    expect(['evaporator_coil', 'evaporator_fan']).toContain(first(e));
  });

  it('takes silence about steady running for no proof of it', () => {
    const reading = { headPaGauge: psig(225), airInK: F(90) };
    const [blank, steady, early] = [
      ask(REACH_IN, reading),
      ask(REACH_IN, { ...reading, steadyMinutes: 20 }),
      ask(REACH_IN, { ...reading, steadyMinutes: 2 }),
    ];
    expect(early.status).toBe('cannot_say');
    if (blank.status !== 'ok' || steady.status !== 'ok') throw new Error('no figure');
    const width = (e: typeof blank) => e.conductanceLost.hi - e.conductanceLost.lo;
    expect(width(blank)).toBeGreaterThan(width(steady) * 1.02);
    expect(blank.verdict).not.toBe('clean_it');
  });

  it('shows no negative loss and no negative money of a clean coil', () => {
    const e = ask(REACH_IN, { headPaGauge: psig(140), airInK: F(90), steadyMinutes: 20, coilGrade: 'bare' });
    if (e.status !== 'ok') throw new Error(e.reason);
    expect(e.conductanceLost.value).toBeGreaterThanOrEqual(0);
    expect(e.conductanceLost.hi).toBeGreaterThan(0);
    expect(e.extraCostPerDay?.value ?? 0).toBeGreaterThanOrEqual(0);
    expect(e.sentence).not.toMatch(/[-−]\d/);
  });

  it('asks for no cleaning on a room thermometer alone, and its band says what the coil may breathe', () => {
    // A reach-in pushed against the wall: 12 K of its own warm air comes back; the coil is clean.
    const e = ask(REACH_IN, { headPaGauge: psig(190), roomAirK: F(80), steadyMinutes: 20 });
    expect(e.verdict).not.toBe('clean_it');
    if (e.status === 'ok') expect(e.conductanceLost.lo).toBeLessThan(0.22);
  });

  it('says of a refrigerant that is not known just that', () => {
    const unit = { ...REACH_IN, refrigerant: 'unknown' };
    const reading: Reading = { at: 0, phase: 'before', headPaGauge: psig(190), airInK: F(80) };
    const e = estimate(unit, reading, cleanPrior(unit), CONDITIONS);
    expect(e).toMatchObject({ status: 'cannot_say', reason: 'unknown_refrigerant' });
    const said = [e.sentence, ...questionReading(unit, reading).map((d) => d.question)].join(' ');
    expect(said).not.toMatch(/unknown can condense/i);
  });

  it('looks at fan and air first where head is beyond all figures', () => {
    // A reach-in whose condenser fan stands in air of 75 °F.
    const e = ask(REACH_IN, { headPaGauge: psig(400), airInK: F(75), steadyMinutes: 20, fanGrade: 'failed' });
    expect(e.status).toBe('cannot_say');
    expect(e.sentence).toMatch(/look at condenser fan, air and coil first/);
  });

  it('asks nothing about air of a water-cooled condenser', () => {
    const unit: CondenserUnit = { ...REACH_IN, condenserKind: 'water_cooled' };
    const reading: Reading = { at: 0, phase: 'before', headPaGauge: psig(150), airInK: F(120) };
    expect(estimate(unit, reading, cleanPrior(unit), CONDITIONS)).toMatchObject({ status: 'cannot_say', reason: 'water_cooled' });
    expect(questionReading(unit, reading).map((d) => d.question).join(' ')).not.toMatch(/\bair\b/i); // prettier-ignore
  });

  it('says of carbon dioxide above its critical point that it does not condense', () => {
    const unit: CondenserUnit = { ...REACH_IN, refrigerant: 'R744', kind: 'display', expansion: 'valve' };
    const e = estimate(unit, { at: 0, phase: 'before', headPaGauge: psig(1300), airInK: F(90) }, cleanPrior(unit), CONDITIONS);
    expect(e.status).toBe('cannot_say');
    expect(e.sentence).toMatch(/critical|gas cooler/i);
  });
});
