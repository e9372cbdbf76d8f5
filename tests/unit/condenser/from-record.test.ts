import { describe, expect, it } from 'vitest';
import { baselineOf, condenserUnitOf, conditionsOf, readingOf, usualBoxK, type UnitRecord } from '@/lib/core/condenser/from-record';
import { READING_FIELDS } from '@/lib/core/entries/reading-fields';

const BARE: UnitRecord = { kind: 'reach_in', refrigerant: 'R290', placement: 'line' };
const FULL: UnitRecord = {
  ...BARE, application: 'low', expansion: 'valve', circuitAccess: 'ports', condenserKind: 'microchannel', boxSetK: 250, cutoutPaGauge: 2e6,
  chargeKg: 0.4, headControl: false, nominalCoolingW: 800, runHoursPerDay: 15, airOverRoomK: 0, airProfile: 'cooking', thermometerClass: 'pt_b',
}; // prettier-ignore

describe('a unit on file', () => {
  it('of which nothing was entered is a sealed medium one with a capillary, at sea level, and else unknown', () =>
    expect(JSON.parse(JSON.stringify(condenserUnitOf(BARE, {})))).toEqual({
      ...BARE, application: 'medium', expansion: 'capillary', circuitAccess: 'sealed', condenserKind: 'fin_and_tube', boxSetPointK: usualBoxK('reach_in', 'medium'), altitudeM: 0,
    })); // prettier-ignore
  it('is taken as it was entered, a nought and a no included', () => {
    const { boxSetK, headControl, ...same } = FULL;
    expect(JSON.parse(JSON.stringify(condenserUnitOf(FULL, { altitudeM: 1200 })))).toEqual({ ...same, boxSetPointK: boxSetK, hasHeadControl: headControl, altitudeM: 1200 }); // prettier-ignore
  });
  it.each([
    ['reach_in', 'medium', 38],
    ['reach_in', 'low', -5],
    ['ice_machine', 'medium', 30],
    ['ice_machine', 'low', 30],
  ])('%s, %s: its box is usually at %d °F', (kind, application, f) =>
    expect(usualBoxK(kind, application) * 1.8 - 459.67).toBeCloseTo(f, 1),
  );
});

describe('a kitchen on file', () => {
  const unit = condenserUnitOf(FULL, {});
  it('without a hot day has one of 95 °F, without a price none', () =>
    expect(conditionsOf(unit, { energyPricePerKwh: null }, 'EUR')).toMatchObject({ hotDayAirK: 308.15, boxK: 250, energyPricePerKwh: 0, priceKnown: false, currency: 'EUR' })); // prettier-ignore
  it('is taken as it was entered, energy for nothing included', () => {
    expect(conditionsOf(unit, { hotDayAirK: 313, energyPricePerKwh: 0.3 }, 'USD')).toMatchObject({ hotDayAirK: 313, energyPricePerKwh: 0.3, priceKnown: true }); // prettier-ignore
    expect(conditionsOf(unit, { energyPricePerKwh: 0 }, 'USD').priceKnown).toBe(true);
  });
});

describe('a reading on file', () => {
  const at = '2026-06-01T10:00:00Z';
  it.each(READING_FIELDS)('%s: taken where it was entered, nought included, left out where it was not', (field) => {
    for (const value of [0, 281.5]) expect(readingOf({ at, phase: 'before', [field]: value })).toEqual({ at: Date.parse(at), phase: 'before', [field]: value }); // prettier-ignore
    for (const value of [null, undefined]) expect(Object.keys(readingOf({ at, phase: 'after', [field]: value }))).toEqual(['at', 'phase']);
  });
  it('has a gauge where both grade and span are known', () => {
    const gaugeOf = (gaugeGrade: string | null, gaugeSpanPa: number | null) => readingOf({ at, phase: 'log', gaugeGrade, gaugeSpanPa }).gauge; // prettier-ignore
    expect(gaugeOf('1A', 3e6)).toEqual({ grade: '1A', spanPa: 3e6 });
    expect([gaugeOf('1A', null), gaugeOf(null, 3e6), gaugeOf(null, null)]).toEqual([undefined, undefined, undefined]);
  });
  it.each([
    { coilGrade: 'matted' },
    { fanGrade: 'worn' },
    { airPathGrade: 'open' },
    { evaporatorFanGrade: 'failed' },
    { evaporatorCoilGrade: 'choked' },
    { iceGrade: 'block' },
  ] as const)('takes what was seen: %o', (seen) => expect(readingOf({ at, phase: 'log' }, seen)).toEqual({ at: Date.parse(at), phase: 'log', ...seen })); // prettier-ignore
});

it('a baseline on file is one where its rise, its spread and its readings are numbers, and its rise is above nothing', () => {
  const whole = { cleanRiseK: 12, sdK: 1, readings: 0 };
  expect(baselineOf(whole)).toEqual(whole);
  for (const bad of [null, undefined, {}, { ...whole, cleanRiseK: 0 }, { ...whole, cleanRiseK: '12' }, { ...whole, sdK: null }, { ...whole, readings: undefined }]) expect(baselineOf(bad)).toBeNull(); // prettier-ignore
});
