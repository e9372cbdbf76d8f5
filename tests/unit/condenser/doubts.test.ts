import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, questionReading, type Reading } from '@/lib/core/condenser';
import { sifted } from '@/lib/core/condenser/readings/doubts';
import { bubblePressure, unwrap } from '@/lib/core/refrigerants';
import { CONDITIONS, F, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const state = stateAt(REACH_IN, 0.8, F(85));
const asked = (more: Partial<Reading>) => questionReading(REACH_IN, readingOf(state, more)).map((d) => d.field);

describe('entries that cannot be', () => {
  it('asks nothing of a sound reading', () => {
    expect(
      asked({
        roomAirK: F(83),
        ampsA: 4.2,
        dischargeLineK: state.dischargeLineK,
        offCyclePaGauge: 85 * PSI,
        offCycleAirK: F(84),
      }),
    ).toEqual([]);
  });
  it.each([
    ['headPaGauge', { headPaGauge: 999 * PSI }],
    ['headPaGauge', { headPaGauge: 60 * PSI }],
    ['headPaGauge', { headPaGauge: 275 * PSI }],
    ['headPaGauge', { headPaGauge: NaN }],
    ['headPaGauge', { headPaGauge: 140 * PSI, gauge: { grade: '1A', spanPa: 100 * PSI } }],
    ['airInK', { airInK: F(999) }],
    ['airInK', { airInK: F(85), roomAirK: F(30) }],
    ['boxK', { boxK: F(138) }],
    ['suctionPaGauge', { suctionPaGauge: state.headPaGauge + 1 }],
    ['suctionPaGauge', { suctionPaGauge: -15 * PSI }],
    ['liquidLineK', { liquidLineK: state.condensingK + 15 }],
    ['dischargeLineK', { dischargeLineK: F(80) }],
    ['suctionLineK', { suctionLineK: state.evaporatingDewK - 6 }],
    ['condensingClampK', { headPaGauge: undefined, condensingClampK: F(70) }],
    ['ampsA', { ampsA: 420 }],
    ['steadyMinutes', { steadyMinutes: -3 }],
  ] as [keyof Reading, Partial<Reading>][])('asks about %s in %o', (field, more) => expect(asked(more)).toContain(field));

  it('asks in words that say what to check', () => {
    for (const d of questionReading(REACH_IN, readingOf(state, { headPaGauge: 999 * PSI, airInK: F(999) })))
      expect(d.question).toMatch(/\?|\.$/);
  });
});

const C = (c: number) => c + 273.15;
describe('where a question begins', () => {
  const questions = (more: Partial<Reading>, unit = REACH_IN) => questionReading(unit, readingOf(state, more));
  const of = (field: keyof Reading, more: Partial<Reading>) => questions(more).filter((d) => d.field === field);
  it.each([
    ['airInK', -35, 65, 'air at the coil'],
    ['airAgainK', -35, 65, 'air at the coil'],
    ['roomAirK', -35, 60, 'room air'],
    ['offCycleAirK', -35, 60, 'air while it stood'],
    ['boxK', -45, 40, 'box'],
    ['liquidLineK', -30, 90, 'liquid line'],
    ['suctionLineK', -60, 50, 'suction line'],
    ['dischargeLineK', 0, 165, 'discharge line'],
    ['condensingClampK', -20, 95, 'condenser bend'],
  ] as const)('%s: believed from %d to %d °C', (field, lo, hi, name) => {
    const out = (c: number) => of(field, { [field]: C(c) }).find((d) => d.leftOut);
    expect([out(lo + 0.1), out(hi - 0.1)]).toEqual([undefined, undefined]);
    for (const c of [lo - 1, hi + 1])
      expect(out(c)?.question).toBe(`${Math.round(c * 1.8 + 32)} °F (${c} °C) for ${name}: is the unit or the number mistyped?`);
  });

  const { condensingDewK, condensingK, evaporatingDewK } = state;
  const air = F(85);
  it.each<[string, keyof Reading, (by: number) => Partial<Reading>, string]>([
    ['liquid 2 K over condensing', 'liquidLineK', (by) => ({ liquidLineK: condensingDewK + 2 + by }), 'Liquid line hotter than condensing: is the clamp on the discharge line?'],
    ['liquid 3 K under the air', 'liquidLineK', (by) => ({ liquidLineK: air - 3 - by }), 'Liquid colder than the air that cools it: where was the clamp?'],
    ['discharge 2 K under condensing', 'dischargeLineK', (by) => ({ dischargeLineK: condensingDewK - 2 - by }), 'Discharge colder than condensing: clamp loose, or liquid coming back?'],
    ['suction line 2 K under evaporating', 'suctionLineK', (by) => ({ suctionLineK: evaporatingDewK - 2 - by }), 'Suction line colder than evaporating: gauge, clamp or refrigerant is wrong.'],
    ['evaporating 2 K over the box', 'suctionPaGauge', (by) => ({ boxK: evaporatingDewK - 2 - by }), 'Evaporating warmer than the box: it would heat it. Check gauge and refrigerant.'],
    ['coil air 20 K over the room', 'airInK', (by) => ({ roomAirK: air - 20 - by }), 'Coil air and room air are far apart: is one of them mistyped?'],
    ['coil air 20 K under the room', 'airInK', (by) => ({ roomAirK: air + 20 + by }), 'Coil air and room air are far apart: is one of them mistyped?'],
    ['air at condensing', 'headPaGauge', (by) => ({ airInK: condensingK + by, liquidLineK: undefined }), 'it cannot give off heat. Was it running?'],
    ['condensing 45 K over the air', 'headPaGauge', (by) => ({ airInK: condensingK - 45 - by }), '81 °F (45 K) over the air: right refrigerant and right gauge?'],
    ['bend 5 K over the gauge', 'condensingClampK', (by) => ({ condensingClampK: condensingK + 5 + by }), 'it cannot be hotter than that. Which is wrong?'],
    ['bend 7 K under the gauge', 'headPaGauge', (by) => ({ condensingClampK: condensingK - 7 - by }), 'air in the system, or is the gauge off?'],
    ['thermometers 4 K apart', 'airAgainK', (by) => ({ airAgainK: air - 4 - by }), 'Thermometers 8 °F (4 K) apart: which is right in ice water?'],
    ['thermometers 4 K apart the other way', 'airAgainK', (by) => ({ airAgainK: air + 4 + by }), 'Thermometers 8 °F (4 K) apart: which is right in ice water?'],
    ['suction at head', 'suctionPaGauge', (by) => ({ suctionPaGauge: state.headPaGauge + by, suctionLineK: undefined, boxK: undefined }), 'Suction is not below head: are the hoses crossed, or was it standing?'],
    ['head 3 % over its cut-out', 'headPaGauge', (by) => ({ headPaGauge: 250 * PSI * 1.03 + 1000 * by }), 'Above its cut-out of 250 psig, yet running: check the entry and the cut-out.'],
    ['more than the span', 'headPaGauge', (by) => ({ gauge: { grade: 'A', spanPa: state.headPaGauge - by } }), 'More than the gauge can show: which gauge was it?'],
    ['amps over 100', 'ampsA', (by) => ({ ampsA: 100 + by }), 'A: is the decimal point right?'],
    ['amps under none', 'ampsA', (by) => ({ ampsA: -by }), 'A: is the decimal point right?'],
    ['minutes under none', 'steadyMinutes', (by) => ({ steadyMinutes: -by }), 'Minutes of running cannot be negative.'],
  ])('%s', (_, field, at, words) => {
    const asks = (by: number) => of(field, at(by)).filter((d) => d.question.endsWith(words)).length;
    expect([asks(-0.2), asks(0.2)]).toEqual([0, 1]);
  }); // prettier-ignore

  it('holds two gauges against each other by what they condense at', () => {
    const at = (T: number) => unwrap(bubblePressure('R134a', T)) - 101325;
    for (const [K, n] of [[-4.3, 1], [-3.7, 0], [3.7, 0], [4.3, 1]] as const) expect(of('headAgainPaGauge', { headAgainPaGauge: at(condensingDewK + K) })).toHaveLength(n); // prettier-ignore
    expect(of('headAgainPaGauge', { headAgainPaGauge: at(condensingDewK + 5) })[0]?.question).toBe('Gauges 9 °F (5 K) apart: which shows 0 off the machine, hose open?'); // prettier-ignore
    expect(of('headAgainPaGauge', { headAgainPaGauge: -15 * PSI })[0]?.leftOut).toBe(true);
  });
  it('works with the second instrument where the first was not read, or says what cannot be', () => {
    const with2 = (more: Partial<Reading>) => sifted(REACH_IN, readingOf(state, { headAgainPaGauge: 130 * PSI, airAgainK: air, ...more })).sound; // prettier-ignore
    for (const more of [{ headPaGauge: undefined }, { headPaGauge: 999 * PSI }]) {
      expect(with2(more).headPaGauge).toBe(130 * PSI);
      expect(with2(more).headAgainPaGauge).toBeUndefined();
      expect(with2(more).airAgainK).toBe(air);
    }
    expect(with2({ airInK: F(999) })).toMatchObject({ airInK: air, headPaGauge: state.headPaGauge, headAgainPaGauge: 130 * PSI });
    const e = estimate(REACH_IN, readingOf(state, { airInK: undefined, airAgainK: air }), cleanPrior(REACH_IN), CONDITIONS);
    expect(e.status).toBe('ok');
  });
  it('says what it leaves out until it is answered', () => {
    const left = (more: Partial<Reading>) => questions(more).filter((d) => d.leftOut).map((d) => d.field); // prettier-ignore
    expect(left({ airInK: NaN })).toEqual(['airInK']);
    expect(left({ headPaGauge: -15 * PSI })).toEqual(['headPaGauge']);
    expect(left({ offCyclePaGauge: 900 * PSI })).toEqual(['offCyclePaGauge']);
    expect(left({ suctionPaGauge: state.headPaGauge + 10 })).toEqual(['suctionPaGauge']);
    expect(left({ liquidLineK: state.condensingK + 15, ampsA: 400 })).toEqual([]);
  });
  it('asks of numbers and pressures alone where water cools, of numbers alone with CO₂ and what is not known', () => {
    const odd = { airInK: F(999), boxK: NaN, suctionPaGauge: -15 * PSI };
    expect(questions(odd, { ...REACH_IN, condenserKind: 'water_cooled' }).map((d) => d.field)).toEqual(['boxK', 'suctionPaGauge']);
    for (const refrigerant of ['R744', 'R999']) expect(questions(odd, { ...REACH_IN, refrigerant }).map((d) => d.field)).toEqual(['boxK']);
  });
});
