import { describe, expect, it } from 'vitest';
import { readPosition, writePosition } from '@/lib/core/position';
import { areaNear, areaOf, isFullCode, isShortCode } from '@/lib/core/position/plus-code';

// github.com/google/open-location-code, test_data/decoding.csv (commit 32b10ae) and shortCodeTests.csv (commit 11a5b51), Apache-2.0.
const DECODING: [string, number, number, number, number][] = [
  ['7FG49Q00+', 20.35, 2.75, 20.4, 2.8],
  ['7FG49QCJ+2V', 20.37, 2.782125, 20.370125, 2.78225],
  ['7FG49QCJ+2VX', 20.3701, 2.78221875, 20.370125, 2.78225],
  ['7FG49QCJ+2VXGJ', 20.370113, 2.782234375, 20.370114, 2.78223632813],
  ['8FVC2222+22', 47.0, 8.0, 47.000125, 8.000125],
  ['4VCPPQGP+Q9', -41.273125, 174.785875, -41.273, 174.786],
  ['62G20000+', 0.0, -180.0, 1, -179],
  ['22222222+22', -90.0, -180.0, -89.999875, -179.999875],
  ['CFX3X2X2+X2', 89.999875, 1, 90, 1.000125],
  ['84000000+', 30, -140, 50, -120],
  ['849VGJQF+VX7QR3J7QR3J', 37.53966912, -122.3750698242, 37.53966916, -122.3750697021],
];
const RECOVERING: [string, number, number, string][] = [
  ['9C3W9QCJ+2VX', 51.3701125, -1.217765625, '+2VX'],
  ['9C3W9QCJ+2VX', 51.3708675, -1.217765625, 'CJ+2VX'],
  ['9C3W9QCJ+2VX', 51.3701125, -1.217010625, 'CJ+2VX'],
  ['9C3W9QCJ+2VX', 51.3852125, -1.217765625, '9QCJ+2VX'],
  ['9C3W9QCJ+2VX', 51.3701125, -1.202665625, '9QCJ+2VX'],
  ['8FJFW222+', 42.899, 9.012, '22+'],
  ['796RXG22+', 14.95125, -23.5001, '22+'],
  ['8FRCXGRF+PM', 47.0, 8.55, 'XGRF+PM'],
  ['CFX22222+22', 89.6, 0.0, '2222+22'],
  ['2CXXXXXX+XX', -81.0, 0.0, 'XXXXXX+XX'],
];

describe('plus codes, against the test data of the specification', () => {
  it.each(DECODING)('decodes %s', (code, latLo, lngLo, latHi, lngHi) => {
    const area = areaOf(code);
    for (const [is, should] of [
      [area.latLo, latLo],
      [area.lngLo, lngLo],
      [area.latHi, latHi],
      [area.lngHi, lngHi],
    ] as const)
      expect(is).toBeCloseTo(should, 8);
  });
  // Codes padded with noughts are never short for us: nobody pastes a square of five kilometres as a kitchen.
  it.each(RECOVERING.filter(([, , , short]) => !short.endsWith('+')))('recovers %s near %f, %f from %s', (full, lat, lng, short) => {
    const [is, should] = [areaNear(short, { lat, lng }), areaOf(full)];
    expect(is.latLo).toBeCloseTo(should.latLo, 9);
    expect(is.lngLo).toBeCloseTo(should.lngLo, 9);
  });
  it('knows what is none', () => {
    for (const text of ['WIC', '+', '8FVC2222', '8FVC2222+2', '8FV0C222+', 'hello+22', '312-555-0141'])
      expect(isFullCode(text)).toBe(false);
    expect([isShortCode('9QCJ+2V'), isShortCode('QCJ+2V'), isShortCode('8FVC2222+22')]).toEqual([true, false, false]);
  });
});

describe('full codes', () => {
  // By the specification's own rules: padding in pairs before the plus and nothing after it; no place beyond 180° of either.
  it('may be padded in pairs, and lie on the Earth', () => {
    expect(['8FVC0000+', '86000000+', '8FVC2222+', '8fvc2222+22', 'C2222222+22', '2V222222+22'].map(isFullCode)).toEqual([true, true, true, true, true, true]); // prettier-ignore
    expect(['8FVC0000+2X', '8FV00000+', '00000000+', 'F2222222+22', '2W222222+22', 'x8FVC2222+22', '8FVC2222+22 x'].map(isFullCode)).toEqual([false, false, false, false, false, false, false]); // prettier-ignore
  });
});

describe('a position as it is typed', () => {
  it('may be whole degrees, and have its blanks anywhere', () => {
    expect(readPosition('41, -87')).toEqual({ position: { lat: 41, lng: -87 } });
    expect(readPosition(' 41.5°N ; 87° w ')).toEqual({ position: { lat: 41.5, lng: -87 } });
  });

  it.each([
    ['41.88, -87.63', 41.88, -87.63],
    ['41.88 -87.63', 41.88, -87.63],
    ['41.88° N, 87.63° W', 41.88, -87.63],
    ['33.86 S 151.21 E', -33.86, 151.21],
    ['849VGJQF+VX7QR3J Somewhere', 37.539669, -122.37507],
  ])('%s', (text, lat, lng) => expect(readPosition(text)).toEqual({ position: { lat, lng } }));
  it('reads a short code near the shop, and only then', () => {
    expect(readPosition('9QCJ+2VX', { lat: 51.38, lng: -1.2 })).toEqual({ position: { lat: 51.370113, lng: -1.217766 } });
    expect(readPosition('9QCJ+2VX')).toHaveProperty('problem');
  });
  it('says what is wrong', () => {
    expect(readPosition('Mill Street')).toMatchObject({ problem: expect.stringContaining('41.88, -87.63') });
    expect(readPosition('91, 20')).toHaveProperty('problem');
    expect(readPosition(' ')).toEqual({ position: null });
    expect(writePosition({ lat: 41.880001, lng: -87.63 })).toBe('41.88, -87.63');
  });
});
