import { RandomStream } from '../numerics/random';

/**
 * Clean, repair or replace: what each way costs a year, on the shop's prices, and how sure that is.
 *
 * A way's cost a year = its price spread over the years it serves (capital recovery factor) + energy + cleanings +
 * call-outs + leaks + what a failure costs × how likely one is in a year. Every input has a band; the bands are carried
 * through by drawing them together, so that what the ways share (price of energy, cost of a failure) moves them together.
 */

/** A figure with its 80 % band, in its own unit; lognormal where it must not fall below zero. */
export type Banded = { value: number; lo: number; hi: number };

export const WAYS = ['go_on', 'repair', 'replace'] as const;
export type Way = (typeof WAYS)[number];

export type WayInput = {
  way: Way;
  /** Paid now, shop's currency; null for nothing. */
  price: Banded | null;
  /** Years that the price serves, and after which it would have to be paid again. */
  years: Banded;
  energyKwhPerYear: Banded;
  cleaningsPerYear: Banded;
  callOutsPerYear: Banded;
  leakKgPerYear: Banded;
  /** Chance of a failure that ends the box's day, per year. */
  failuresPerYear: Banded;
};

export type Prices = {
  energyPerKwh: Banded;
  /** A cleaning with its share of the trip. */
  cleaning: Banded;
  callOut: Banded;
  refrigerantPerKg: Banded;
  /** A failure: emergency work, food, and the repair itself. */
  failure: Banded;
  /** What money costs the owner, a year, as a share. */
  interest: number;
};

export type WayCost = {
  way: Way;
  perYear: Banded;
  parts: Record<'capital' | 'energy' | 'cleaning' | 'callOuts' | 'leaks' | 'failures', number>;
  /** Chance that this way is the cheapest. */
  cheapest: number;
  /** Price paid now at which it would cost what the best of the others costs; null for going on, or where no price above nothing would. */
  breakEvenPrice: number | null;
};

export type Comparison = {
  ways: WayCost[];
  best: Way;
  /** Chance that the best is the cheapest. */
  sure: number;
  /** What deciding for the best now costs a year more than knowing the cheapest would, in the mean. */
  regretPerYear: number;
  verdict: 'clear' | 'leaning' | 'cant_tell';
};

const DRAWS = 600;
const Z80 = 1.2816;
/** From here on the answer is called clear, or leaning: judgement. */
const CLEAR = 0.85;
const LEANING = 0.65;

/**
 * Share of a price to be paid each year over `years` at `interest`: i / (1 − (1 + i)^−n); 1/n without interest.
 * (Capital recovery factor, any textbook of engineering economy.)
 */
export function capitalRecovery(interest: number, years: number): number {
  if (!(years > 0)) return Infinity;
  return interest === 0 ? 1 / years : interest / (1 - Math.pow(1 + interest, -years));
}

/**
 * Compares the ways that are open. The same input gives the same answer.
 * @throws RangeError with fewer than two ways or a band that is none
 */
export function compareWays(ways: readonly WayInput[], prices: Prices): Comparison {
  if (ways.length < 2) throw new RangeError('At least two ways are compared.');
  const random = new RandomStream(17, 'ways');
  const draws = Array.from({ length: DRAWS }, () => {
    const price = pricesOf(prices, random);
    return ways.map((way) => costOf(drawn(way, random), price, prices.interest));
  });
  const totals = draws.map((costs) => costs.map((c) => c.total));
  const expected = ways.map((_, i) => mean(totals.map((t) => t[i] ?? NaN)));
  const bestIndex = indexOfLeast(expected);
  const wins = ways.map((_, i) => totals.filter((t) => indexOfLeast(t) === i).length / DRAWS);
  const best = ways[bestIndex]?.way ?? 'go_on';
  const sure = wins[bestIndex] ?? 0;
  return {
    best,
    sure,
    regretPerYear: mean(totals.map((t) => (t[bestIndex] ?? NaN) - Math.min(...t))),
    verdict: sure >= CLEAR ? 'clear' : sure >= LEANING ? 'leaning' : 'cant_tell',
    ways: ways.map((way, i) => ({
      way: way.way,
      perYear: bandOf(totals.map((t) => t[i] ?? NaN)),
      parts: partsOf(draws.map((d) => d[i])),
      cheapest: wins[i] ?? 0,
      breakEvenPrice: breakEven(way, expected, i, draws),
    })),
  };
}

type Costed = { total: number; parts: WayCost['parts']; factor: number };

function costOf(way: ReturnType<typeof drawn>, price: ReturnType<typeof pricesOf>, interest: number): Costed {
  const factor = capitalRecovery(interest, way.years);
  const parts = {
    capital: way.price * factor,
    energy: way.energy * price.energy,
    cleaning: way.cleanings * price.cleaning,
    callOuts: way.callOuts * price.callOut,
    leaks: way.leaks * price.gas,
    failures: way.failures * price.failure,
  };
  return { total: Object.values(parts).reduce((a, b) => a + b, 0), parts, factor };
}

/** What may be paid now: everything but the price is worked out with the ways as they are. */
function breakEven(way: WayInput, expected: readonly number[], i: number, draws: readonly (readonly Costed[])[]): number | null {
  if (way.price === null) return null;
  const others = Math.min(...expected.filter((_, k) => k !== i));
  const running = mean(draws.map((d) => (d[i]?.total ?? NaN) - (d[i]?.parts.capital ?? NaN)));
  const factor = mean(draws.map((d) => d[i]?.factor ?? NaN));
  const price = (others - running) / factor;
  return price > 0 ? price : null;
}

function drawn(way: WayInput, random: RandomStream) {
  return {
    price: way.price ? draw(way.price, random) : 0,
    years: draw(way.years, random),
    energy: draw(way.energyKwhPerYear, random),
    cleanings: draw(way.cleaningsPerYear, random),
    callOuts: draw(way.callOutsPerYear, random),
    leaks: draw(way.leakKgPerYear, random),
    failures: draw(way.failuresPerYear, random),
  };
}

const pricesOf = (prices: Prices, random: RandomStream) => ({
  energy: draw(prices.energyPerKwh, random),
  cleaning: draw(prices.cleaning, random),
  callOut: draw(prices.callOut, random),
  gas: draw(prices.refrigerantPerKg, random),
  failure: draw(prices.failure, random),
});

/** One value from the band: lognormal above zero, so that a wide band never draws a negative cost. */
function draw({ value, lo, hi }: Banded, random: RandomStream): number {
  if (!(lo <= value && value <= hi && lo >= 0))
    throw new RangeError(`A band runs from low to high around its value: ${lo}, ${value}, ${hi}`);
  const z = random.normal();
  if (hi === lo) return value;
  if (value === 0 || lo === 0) return Math.max(0, value + (z * (hi - lo)) / (2 * Z80));
  const sd = Math.log(hi / lo) / (2 * Z80);
  return value * Math.exp(z * sd);
}

const mean = (x: readonly number[]) => x.reduce((a, b) => a + b, 0) / x.length;

const indexOfLeast = (x: readonly number[]) => x.reduce((best, v, i) => (v < (x[best] ?? Infinity) ? i : best), 0);

function bandOf(x: readonly number[]): Banded {
  const sorted = [...x].sort((a, b) => a - b);
  const at = (q: number) => sorted[Math.floor(q * (sorted.length - 1))] ?? NaN;
  return { value: mean(x), lo: at(0.1), hi: at(0.9) };
}

function partsOf(costs: readonly (Costed | undefined)[]): WayCost['parts'] {
  const sum = { capital: 0, energy: 0, cleaning: 0, callOuts: 0, leaks: 0, failures: 0 };
  for (const cost of costs) {
    if (!cost) continue;
    for (const key of ['capital', 'energy', 'cleaning', 'callOuts', 'leaks', 'failures'] as const)
      sum[key] += cost.parts[key] / costs.length;
  }
  return sum;
}
