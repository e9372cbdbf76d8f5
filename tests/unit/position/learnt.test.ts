import { describe, expect, it } from 'vitest';
import { disagrees, judge, learnt, type Candidate } from '@/lib/core/position';
import { houseNumberOf } from '@/lib/core/position/candidates';

const fix = (lat: number, lng: number, accuracyM = 5) => ({ lat, lng, accuracyM });

describe('what arrivals teach', () => {
  it('is nothing below three, and the middle of them that one wrong one does not move', () => {
    expect(learnt([fix(40, 10), fix(40, 10)])).toBeNull();
    const found = learnt([fix(40, 10), fix(40.0001, 10), fix(40.0002, 10), fix(40.0001, 10), fix(41, 11)]);
    expect(found).toMatchObject({ lat: 40.0001, n: 5 });
    expect(found?.lng).toBeCloseTo(10, 9);
    // 0.0001 degrees of latitude are 11.1 m on a sphere of the IUGG mean radius.
    expect(found?.halfWithinM).toBeCloseTo(11.1, 1);
  });
  it('crosses the date line and is no finer than the tablets were sure', () => {
    const found = learnt([fix(0, 179.9999, 30), fix(0, -179.9999, 30), fix(0, 180, 30)]);
    expect(Math.abs(found?.lng ?? 0)).toBeCloseTo(180, 6);
    expect(found?.halfWithinM).toBeGreaterThan(15);
  });
  it('contradicts only what lies farther off than parking and its own spread', () => {
    const found = learnt([fix(40, 10), fix(40.0001, 10), fix(40.0002, 10)]) ?? expect.fail('three are enough');
    expect(disagrees({ lat: 40.002, lng: 10 }, found)).toBe(false);
    expect(disagrees({ lat: 40.004, lng: 10 }, found)).toBe(true);
    const wide = learnt([fix(40, 10), fix(40.005, 10), fix(40.01, 10)]) ?? expect.fail('three are enough');
    expect(disagrees({ lat: 40.012, lng: 10 }, wide)).toBe(false);
  });
});

describe('what an answer is worth', () => {
  const c = (over: Partial<Candidate> = {}): Candidate => ({
    lat: 40,
    lng: 10,
    label: 'x',
    precision: 'house',
    houseNumber: '12',
    withinM: 5,
    ...over,
  });
  it.each([
    [[c()], 'fits'],
    [[c({ houseNumber: '14' })], 'look'],
    [[c(), c({ lat: 40.1 })], 'look'],
    [[c(), c({ lat: 40.0001 })], 'fits'],
    [[c({ precision: 'street' })], 'look'],
    [[c({ precision: 'area' })], 'rough'],
    [[], 'rough'],
  ] as const)('%j is %s', (candidates, confidence) => {
    expect(judge('12 Alder Street, Alder Mesa', candidates).confidence).toBe(confidence);
  });
  it.each([
    ['118 Dock Street, Alder Mesa 80202', '118'],
    ['Hafenstraße 12a, Oldhaven', '12a'],
    ['Alder Mall', ''],
  ])('finds the house number of %s', (address, number) => {
    expect(houseNumberOf(address)).toBe(number);
  });
});
