import { expect, it } from 'vitest';
import { compareWays, rateOf, unitWays, type UnitFacts } from '@/lib/core/choices';

const facts: UnitFacts = {
  cleanings: { times: 12, years: 3 },
  callOuts: { times: 6, years: 3 },
  failures: { times: 4, years: 3 },
  fleet: { callOuts: { times: 60, years: 600 }, failures: { times: 60, years: 600 } },
  leakKgPerYear: 0.4,
  fouling: { now: { value: 900, lo: 500, hi: 1500 }, clean: { value: 150, lo: 80, hi: 300 } },
};
const typed = {
  coilPrice: 900,
  coilYears: 10,
  unitPrice: 6000,
  unitYears: 12,
  leftYears: 6,
  useKwh: 3000,
  newKwh: 2400,
  callOut: 260,
  refrigerantPerKg: 45,
  interest: 0.06,
};
const shop = { energyPerKwh: 0.18, cleaning: 110, failure: 1800 };

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
