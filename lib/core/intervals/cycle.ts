import { stepAhead, type Ahead, type Limit } from '../fouling';
import { pieceOf, pieceCount } from '../fouling/pieces';
import { normalCdf } from '../fouling/special';
import type { UnitPolicy } from './policy';

/** Weeks at which cost is looked at: every week at first, then coarser, to six years. */
export const WEEKS: readonly number[] = [
  ...Array.from({ length: 20 }, (_, i) => i + 1),
  ...Array.from({ length: 10 }, (_, i) => 22 + 2 * i),
  ...Array.from({ length: 16 }, (_, i) => 44 + 4 * i),
  130,
  156,
  208,
  260,
  312,
];

/** Spread of the deposit at which a unit breaks down on a hot day, where its own is not known better. */
const FAILURE_SD = 0.1;

/** Hypotheses less likely than this move no date. */
const UNLIKELY = 3e-4;

/** Of a cleaning that takes off less than a fifth, the rest is told as if it took that. */
const MOST_LEFT = 0.8;

export type Costs = Pick<
  UnitPolicy,
  'cleaningCost' | 'comebackCost' | 'energyCostPerDayPerLnK' | 'failureCost' | 'failureChancePerDay' | 'lateDays'
>;

/** One hypothesis about a coil (a piece of its belief) over each interval of `WEEKS`, counted from a cleaning. */
export type Cycle = {
  weight: number;
  /** Expected money of a cycle (the cleaning itself left out) and its expected length in days, a breakdown ending it. */
  spent: Float64Array;
  days: Float64Array;
  /** Chance of a breakdown in it, of having passed the shop's limit, and of being packed at its end. */
  failure: Float64Array;
  passed: Float64Array;
  packed: Float64Array;
  energy: Float64Array;
  /** Mean and variance of the deposit at its end. */
  mean: Float64Array;
  variance: Float64Array;
};

/** What every hypothesis of a belief just after a cleaning expects of each interval. */
export function cycles(fresh: Ahead, costs: Costs, riskLimit: Limit, failureLimit: Limit, packed: number): Cycle[] {
  const price = costs.energyCostPerDayPerLnK;
  const energyAt = typeof price === 'function' ? price : (deposit: number) => price * Math.max(0, deposit);
  const failureVar = (failureLimit.sd ?? FAILURE_SD) ** 2;
  const all: Cycle[] = [];
  for (let i = 0; i < pieceCount(fresh); i++) {
    const piece = pieceOf(fresh, i);
    if (piece.weight < UNLIKELY) continue;
    const n = WEEKS.length;
    const c: Cycle = {
      weight: piece.weight,
      spent: new Float64Array(n), days: new Float64Array(n), failure: new Float64Array(n), passed: new Float64Array(n), packed: new Float64Array(n),
      energy: new Float64Array(n), mean: new Float64Array(n), variance: new Float64Array(n),
    }; // prettier-ignore
    // Old deposit is there whatever the interval is, so it is nobody's cost of waiting. What one cleaning leaves of a cycle's own and later
    // ones take off is: so much of it in all, if every cycle is like this one.
    const loose = Math.min(piece.left * (1 - fresh.hyper.restore.baked), MOST_LEFT);
    const stays = loose / (1 - loose);
    const start = { fresh: piece.mean, deposit: piece.mean, rate: piece.rate };
    const residual = energyAt(piece.mean);
    let [day, hazard, survival, extra, beyond] = [0, 0, 1, 0, over(-failureLimit.lnK, piece.mean, piece.variance + failureVar)];
    let [energy, length] = [0, 0];
    for (let k = 0; k < n; k++) {
      const step = 7 * (WEEKS[k] as number) - day;
      day = 7 * (WEEKS[k] as number);
      const { gain, noise, byStart, byRate, unsure } = stepAhead(fresh, piece.id, day, start);
      const mean = piece.mean + gain * piece.rate;
      const variance = Math.max(
        0,
        byStart * byStart * piece.variance +
          byRate * (2 * byStart * piece.joint + byRate * piece.rateVariance) +
          fresh.hyper.diffusion * noise * piece.rate +
          (unsure * piece.rate) ** 2,
      );
      const beyondNow = over(-failureLimit.lnK, mean, variance + failureVar);
      hazard += (costs.failureChancePerDay * step * (beyond + beyondNow)) / 2;
      const survivalNow = Math.exp(-hazard);
      const extraNow = energyAt(mean) - residual;
      length += (step * (survival + survivalNow)) / 2;
      energy += (step * (survival * extra + survivalNow * extraNow)) / 2;
      [beyond, survival, extra] = [beyondNow, survivalNow, extraNow];
      c.mean[k] = mean;
      c.variance[k] = variance;
      c.failure[k] = 1 - survival;
      c.days[k] = length;
      const halfWay = (piece.mean + mean) / 2;
      const inherited = length * (energyAt(halfWay + stays * (mean - piece.mean)) - energyAt(halfWay));
      c.energy[k] = energy + inherited;
      c.passed[k] = Math.max(k > 0 ? (c.passed[k - 1] as number) : 0, over(-riskLimit.lnK, mean, variance));
      // A coil found packed brings somebody back, and a complaint; a breakdown is met by a call-out that cleans as well.
      // Visits come late by as much again either way as they do in the mean: a waiting time, exponential.
      c.packed[k] = Math.max(k > 0 ? (c.packed[k - 1] as number) : 0, over(packed, mean, variance));
      const late = (costs.lateDays * piece.rate) ** 2;
      const comeback = survival * costs.comebackCost * over(packed, mean, variance + late);
      c.spent[k] = energy + inherited + costs.failureCost * (1 - survival) + comeback;
    }
    all.push(c);
  }
  return all;
}

/** What is known without doubt is as good as known to a millionth. */
const over = (limit: number, mean: number, variance: number): number => normalCdf((mean - limit) / Math.sqrt(Math.max(variance, 1e-12)));
