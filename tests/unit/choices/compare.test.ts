import { describe, expect, it } from 'vitest';
import { capitalRecovery, compareWays, type Banded, type Prices, type WayInput } from '@/lib/core/choices';

const sure = (value: number): Banded => ({ value, lo: value, hi: value });
const about = (value: number, share = 0.3): Banded => ({ value, lo: value / (1 + share), hi: value * (1 + share) });

const prices: Prices = {
  energyPerKwh: about(0.18, 0.1),
  cleaning: about(110, 0.15),
  callOut: about(260, 0.2),
  refrigerantPerKg: about(45, 0.2),
  failure: about(1800, 0.4),
  interest: 0.06,
};

const way = (over: Partial<WayInput> & Pick<WayInput, 'way'>): WayInput => ({
  price: null,
  years: sure(10),
  energyKwhPerYear: about(3000, 0.1),
  cleaningsPerYear: about(4, 0.1),
  callOutsPerYear: about(1, 0.3),
  leakKgPerYear: sure(0),
  failuresPerYear: about(0.1, 0.5),
  ...over,
});

describe('clean, repair or replace', () => {
  it('spreads a price over its years: 1,000 over 10 years at 6 % is 135.87 a year (tables of engineering economy)', () => {
    expect(1000 * capitalRecovery(0.06, 10)).toBeCloseTo(135.868, 3);
    expect(capitalRecovery(0, 8)).toBeCloseTo(0.125, 12);
    expect(capitalRecovery(0.06, 0)).toBe(Infinity);
  });

  it('adds up what a person would on paper', () => {
    const { ways } = compareWays(
      [
        way({
          way: 'go_on',
          energyKwhPerYear: sure(3000),
          cleaningsPerYear: sure(4),
          callOutsPerYear: sure(1),
          failuresPerYear: sure(0.1),
        }),
        way({
          way: 'replace',
          price: sure(5000),
          energyKwhPerYear: sure(2000),
          cleaningsPerYear: sure(2),
          callOutsPerYear: sure(0),
          failuresPerYear: sure(0.02),
        }),
      ],
      { energyPerKwh: sure(0.2), cleaning: sure(100), callOut: sure(250), refrigerantPerKg: sure(40), failure: sure(2000), interest: 0 },
    );
    expect(ways[0]?.perYear.value).toBeCloseTo(600 + 400 + 250 + 200, 9);
    expect(ways[1]?.perYear.value).toBeCloseTo(500 + 400 + 200 + 40, 9);
    // At this price it would cost the same as going on.
    expect(ways[1]?.breakEvenPrice).toBeCloseTo(8100, 6);
    expect(ways[0]?.breakEvenPrice).toBeNull();
  });

  it('says that it can’t tell where the ways are alike, and is sure where they are far apart', () => {
    const alike = compareWays([way({ way: 'go_on' }), way({ way: 'repair', price: about(40) })], prices);
    expect(alike.verdict).toBe('cant_tell');
    const apart = compareWays(
      [way({ way: 'go_on', failuresPerYear: about(1) }), way({ way: 'repair', price: about(400), failuresPerYear: about(0.05) })],
      prices,
    );
    expect(apart).toMatchObject({ best: 'repair', verdict: 'clear' });
    expect(apart.ways.reduce((s, w) => s + w.cheapest, 0)).toBeCloseTo(1, 9);
  });

  it('refuses what is no comparison', () => {
    expect(() => compareWays([way({ way: 'go_on' })], prices)).toThrow(/two ways/);
    expect(() => compareWays([way({ way: 'go_on', years: { value: 1, lo: 2, hi: 3 } }), way({ way: 'repair' })], prices)).toThrow(/band/);
  });
});
