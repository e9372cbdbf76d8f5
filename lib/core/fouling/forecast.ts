import { fromDay, toDay, type LocalDate } from '../calendar';
import { AT, clean, daysAhead, DEEP_TAKES, depositMean, depositVariance, predict, STRIDE, washOld, type Bank, type Step } from './filter';
import { passage } from './first-passage';
import { seasonFactor } from './season';
import type { FoulingOutlook, GrowthAhead } from './summary';

/** A limit on ln(K/K_clean): the caller turns cooling lost, discharge or trip temperature into it with the condenser model. */
export type Limit = { name: string; lnK: number; /** How far off that is, where it is known only so well. */ sd?: number };

/** Beyond this many days a date is not told. */
const HORIZON_DAYS = 3650;

export type DateForecast = {
  limit: Limit;
  /** Dates by which the limit is crossed with 10, 20, 50, 80 and 90 % probability; null = not within ten years. */
  quantiles: {
    p10: LocalDate | null;
    p20: LocalDate | null;
    p50: LocalDate | null;
    p80: LocalDate | null;
    p90: LocalDate | null;
  };
  /** Probability that it is crossed within ten years. */
  ever: number;
};

/** The filter of a posterior laid ready for looking ahead: pieces, weights, and the few constants growth needs. */
export type Ahead = {
  bank: Bank;
  weights: ArrayLike<number>;
  hyper: GrowthAhead;
  /** Days since the coil was last clean; null where nobody knows. */
  age: number | null;
  /** The day from which it looks ahead. */
  day: number;
};

/** What the `days` ahead make of a piece with such a deposit, its season counted in. Good until the next call. */
export const stepAhead = (
  { hyper, age, day }: Omit<Ahead, 'bank' | 'weights'>,
  id: number,
  days: number,
  at: { fresh: number; deposit: number; rate: number },
): Step => daysAhead(hyper, id, age, days, seasonFactor(hyper.season ?? undefined, day, days), at);

/** Belief on the day `from`, if nothing is done between `asOf` and then. */
export function ahead(p: FoulingOutlook, from: LocalDate = p.asOf): Ahead {
  const hyper = p.state.growth;
  const bank = new Float64Array(p.state.live);
  const days = toDay(from) - toDay(p.asOf);
  if (days < 0) throw new RangeError(`A forecast cannot start on ${from}, before the newest evidence of ${p.asOf}.`);
  const age = p.lastCleanedOn === null ? null : p.state.age;
  predict(bank, hyper, age, days, seasonFactor(hyper.season ?? undefined, toDay(p.asOf), days));
  return { bank, weights: p.state.weights, hyper, age: age === null ? null : age + days, day: toDay(from) };
}

/** Belief just after a cleaning on the day `from`. */
export function afterCleaning(p: FoulingOutlook, from: LocalDate = p.asOf): Ahead {
  const result = ahead(p, from);
  const age = p.state.age + toDay(from) - toDay(p.asOf);
  if (age > 0) clean(result.bank, result.hyper, age);
  return { ...result, age: 0 };
}

/** Belief just after the cleaning that follows a belief just after one, so many days later: what usual cleanings leave, not this one's luck. */
export function afterNextCleaning(fresh: Ahead, days: number): Ahead {
  const bank = fresh.bank.slice();
  predict(bank, fresh.hyper, fresh.age, days, seasonFactor(fresh.hyper.season ?? undefined, fresh.day, days));
  clean(bank, fresh.hyper, days);
  return { ...fresh, bank, age: 0, day: fresh.day + days };
}

/** The same with old deposit washed out as well, and the part of it which is left. */
export function washedThrough(fresh: Ahead): { ahead: Ahead; left: number } {
  const bank = fresh.bank.slice();
  washOld(bank);
  return { ahead: { ...fresh, bank }, left: 1 - DEEP_TAKES.mean };
}

// Gauss–Hermite points and weights for a standard normal (Abramowitz & Stegun 25.4.46, rescaled), for an uncertain start.
const POINTS = [-3.7504397177257425, -2.366759410734541, -1.154405394739968, 0, 1.154405394739968, 2.366759410734541, 3.7504397177257425];
const MASSES = [
  5.48268855972218e-4, 3.07571239675865e-2, 0.240123178605013, 0.457142857142857, 0.240123178605013, 3.07571239675865e-2,
  5.48268855972218e-4,
];

/** Probability that the deposit has reached −lnK within `days`. */
export function crossedWithin(a: Ahead, lnK: number, days: number): number {
  const { bank, weights, hyper } = a;
  let total = 0;
  for (let i = 0, o = 0; o < bank.length; i++, o += STRIDE) {
    const w = weights[i] as number;
    if (w < 1e-7) continue;
    const rate = bank[o + AT.RATE] as number;
    const deposit = depositMean(bank, o);
    const ahead = stepAhead(a, bank[o] as number, days, { fresh: bank[o + AT.F] as number, deposit, rate });
    const { gain, byStart } = ahead;
    const distance = -lnK - deposit;
    const start = Math.max(depositVariance(bank, o), 0);
    const variance = ahead.byRate * ahead.byRate * (bank[o + AT.XX] as number) + (ahead.unsure * rate) ** 2;
    const joint = ahead.byRate * ((bank[o + AT.FX] as number) + (bank[o + AT.RX] as number));
    const noise = hyper.diffusion * ahead.noise * Math.max(rate, 1e-5);
    if (distance * distance > 36 * start) {
      total += w * passage(distance, gain * rate, noise, Math.max(variance + byStart * (2 * joint + byStart * start), 0));
      continue;
    }
    // The start itself is uncertain against the limit: go through it point by point.
    const slope = byStart - 1 + joint / start;
    const rest = Math.max(variance - (joint / start) * joint, 0);
    for (let k = 0; k < POINTS.length; k++) {
      const off = (POINTS[k] as number) * Math.sqrt(start);
      total += w * (MASSES[k] as number) * passage(distance - off, gain * rate + slope * off, noise, rest);
    }
  }
  return total;
}

/** Chance that a limit has been crossed within so many days. */
type Crossed = (days: number) => number;

/** Days after which the limit is crossed with probability `p`; Infinity when not within the horizon. */
export function daysToRisk(a: Ahead, lnK: number, p: number, horizon = HORIZON_DAYS): number {
  return daysUntil((days) => crossedWithin(a, lnK, days), p, horizon);
}

/** To a quarter of a day, never early. */
function daysUntil(crossed: Crossed, p: number, horizon: number): number {
  let [low, below] = [0, crossed(0)];
  if (below >= p) return 0;
  const ever = crossed(horizon);
  if (ever < p) return Infinity;
  let [high, above] = [16, crossed(16)];
  while (high < horizon && above < p) {
    [low, below] = [high, above];
    high = Math.min(high * 2, horizon);
    above = high === horizon ? ever : crossed(high);
  }
  return firstStep(crossed, p, { low, below, high, above });
}

/**
 * The first of the steps of a quarter of a day at most, by halving, between `low` and `high` at which `p` is reached; each try lies where a
 * straight line between both ends says, every other one in the middle.
 */
function firstStep(
  crossed: Crossed,
  p: number,
  { low, below, high, above }: { low: number; below: number; high: number; above: number },
): number {
  const steps = 2 ** Math.ceil(Math.log2((high - low) / 0.25));
  const width = (high - low) / steps;
  let [from, to] = [0, steps];
  for (let halve = false; to - from > 1; halve = !halve) {
    const share = halve || !(above > below) ? 0.5 : (p - below) / (above - below);
    const k = Math.min(Math.max(from + Math.round(share * (to - from)), from + 1), to - 1);
    const here = crossed(low + k * width);
    if (here < p) [from, below] = [k, here];
    else [to, above] = [k, here];
  }
  return low + to * width;
}

/** When the limit will be crossed if the coil is left alone from `from`, as a distribution of dates. */
export function forecast(p: FoulingOutlook, limit: Limit, from: LocalDate = p.asOf): DateForecast {
  const a = ahead(p, from);
  const start = toDay(from);
  // Its quantiles ask for the same days again.
  const reckoned = new Map<number, number>();
  const crossed = (days: number) => {
    const chance = reckoned.get(days) ?? crossedWithin(a, limit.lnK, days);
    reckoned.set(days, chance);
    return chance;
  };
  const at = (q: number) => {
    const days = daysUntil(crossed, q, HORIZON_DAYS);
    return Number.isFinite(days) ? fromDay(start + Math.ceil(days)) : null;
  };
  return {
    limit,
    quantiles: { p10: at(0.1), p20: at(0.2), p50: at(0.5), p80: at(0.8), p90: at(0.9) },
    ever: crossed(HORIZON_DAYS),
  };
}
