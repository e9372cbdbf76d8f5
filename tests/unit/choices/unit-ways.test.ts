import { describe, expect, it } from 'vitest';
import { compareWays, rateOf, cleaningPrice, meanMinutes, unitWays } from '@/lib/core/choices';
import { facts, shop, typed } from '../../support/choices';

it('a rate from a count has the mean and variance of its gamma posterior (Gelman et al., Bayesian Data Analysis, 2.6)', () => {
  const rate = rateOf({ times: 4, years: 2 });
  const sd = Math.log(rate.hi / rate.lo) / (2 * 1.2816);
  const mean = rate.value * Math.exp((sd * sd) / 2);
  expect(mean).toBeCloseTo(4.5 / 2, 6);
  expect(mean * mean * (Math.exp(sd * sd) - 1)).toBeCloseTo(4.5 / 4, 6);
  expect(() => rateOf({ times: 1, years: 0 })).toThrow(/years/);
});

it('one that never failed in three years is held to the shop, and one that did is not excused by it', () => {
  const shop = { times: 60, years: 600 };
  expect(rateOf({ times: 0, years: 3 }, shop).hi).toBeLessThan(0.25);
  expect(rateOf({ times: 6, years: 3 }, shop).value).toBeGreaterThan(0.6);
});

it('a unit that keeps failing wants repair, one that never did is left alone', () => {
  const bad = unitWays(facts, typed, shop);
  expect(bad.ways.map((w) => w.way)).toEqual(['go_on', 'repair', 'replace']);
  expect(compareWays(bad.ways, bad.prices).best).toBe('repair');
  const quiet = unitWays(
    { ...facts, callOuts: { times: 0, years: 3 }, failures: { times: 0, years: 3 }, leakKgPerYear: 0, fouling: null },
    typed,
    shop,
  );
  expect(compareWays(quiet.ways, quiet.prices).best).toBe('go_on');
});

it('a way without a price is not a way', () => {
  expect(unitWays(facts, { ...typed, unitPrice: null }, shop).ways.map((w) => w.way)).toEqual(['go_on', 'repair']);
});

describe('the price of cleaning this unit', () => {
  const shop = { energyPerKwh: 0.15, cleaning: 90, failure: 900, hour: 120, plannedMinutes: 30 };
  const seen = (value: number, wide = 0) => ({ value, lo: value - wide, hi: value + wide, cleanings: 5 });

  it('is the shop’s, dearer or cheaper by the time it was seen to take beside the time planned', () => {
    expect(cleaningPrice(shop, seen(60)).value).toBeCloseTo(150, 9);
    expect(cleaningPrice(shop, seen(15)).value).toBeCloseTo(60, 9);
    expect(cleaningPrice(shop, seen(30)).value).toBe(90);
  });

  it('is as wide as the price and the time together, and never below nothing', () => {
    const width = ({ lo, hi }: { lo: number; hi: number }) => hi - lo;
    const [sure, unsure] = [cleaningPrice(shop, seen(60)), cleaningPrice(shop, seen(60, 20))];
    expect(width(unsure)).toBeGreaterThan(width(sure));
    // 20 minutes are 40, and the shop’s own 15 % above 13.5: together the root of their squares.
    expect(unsure.hi).toBeCloseTo(150 + Math.hypot(40, 13.5), 6);
    expect(cleaningPrice({ ...shop, cleaning: 20 }, seen(0)).lo).toBeGreaterThan(0);
  });

  it('is the shop’s as it is where an hour has no price, or too little was seen', () => {
    expect(cleaningPrice(shop, null).value).toBe(90);
    expect(cleaningPrice({ ...shop, hour: null }, seen(60)).value).toBe(90);
    expect(meanMinutes([{ minutes: 40, lo: 40, hi: 40 }])).toBeNull();
    const times = [30, 40, 50].map((minutes) => ({ minutes, lo: minutes - 10, hi: minutes + 5 }));
    // Mean 40; its standard error 10/√3, 1.2816 of it 7.40, with 10 below and 5 above.
    const mean = meanMinutes(times);
    expect([mean?.value, mean?.cleanings]).toEqual([40, 3]);
    expect(mean?.lo).toBeCloseTo(40 - Math.hypot(7.3995, 10), 3);
    expect(mean?.hi).toBeCloseTo(40 + Math.hypot(7.3995, 5), 3);
  });
});
