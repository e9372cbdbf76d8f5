import { normalCdf } from '../fouling/special';
import { WEEKS, type Cycle } from './cycle';

/** Money per day and what it is made of, at one interval. */
export type CostPoint = {
  weeks: number;
  /** Money per day. */
  costPerDay: number;
  /** Probability of a breakdown before the cleaning. */
  failure: number;
  /** Mean extra energy cost per day over the cycle. */
  energyPerDay: number;
  /** Chosen because it can ride along with another visit to the kitchen. */
  rides?: true;
};

export type Eye = { thresholds: readonly number[]; sd: number; misread: number };

/** Intervals at which learning is looked at, for the next visit and the one after it. */
const COARSE = [2, 4, 6, 8, 11, 14, 18, 24, 32, 44, 60, 80, 104].map((w) => WEEKS.indexOf(w));
/** Hypotheses less likely than this teach nothing that would change a date. */
const UNLIKELY = 2e-3;

/** Money of a whole cycle of one hypothesis at interval k. */
const money = (c: Cycle, k: number, cleaning: number) => (c.spent[k] as number) + cleaning * (1 - (c.failure[k] as number));

/** What a cleaning costs at each interval: less where it can ride along with another visit to the kitchen. */
export type CleaningCost = (k: number) => number;

/**
 * What choosing interval k costs beyond the best that could be done if the hypothesis were known to be true:
 * C(T) − g*·L(T), g* its own cheapest money per day (renewal-reward; the relative value of Howard 1960).
 */
function regrets(cycles: readonly Cycle[], usual: number): Float64Array[] {
  return cycles.map((c) => {
    let best = Infinity;
    for (let k = 0; k < WEEKS.length; k++) best = Math.min(best, money(c, k, usual) / (c.days[k] as number));
    const regret = new Float64Array(WEEKS.length);
    for (let k = 0; k < WEEKS.length; k++) regret[k] = money(c, k, usual) - best * (c.days[k] as number);
    return regret;
  });
}

/** Chance of each coil grade at the end of interval k, if the hypothesis is true; written into `into`. */
function gradeChances(c: Cycle, k: number, { thresholds, sd, misread }: Eye, into: Float64Array, from: number): void {
  const s = Math.sqrt((c.variance[k] as number) + sd * sd);
  const any = misread / (thresholds.length + 1);
  let before = 0;
  for (let g = 0; g <= thresholds.length; g++) {
    const below = g < thresholds.length ? normalCdf(((thresholds[g] as number) - (c.mean[k] as number)) / s) : 1;
    into[from + g] = (1 - misread) * (below - before) + any;
    before = below;
  }
}

/** Least expected regret of the interval after the next, over what the visit at interval k may find. */
function regretAfter(cycles: readonly Cycle[], regret: readonly Float64Array[], k: number, eye: Eye): number {
  const grades = eye.thresholds.length + 1;
  const chances = new Float64Array(cycles.length * grades);
  cycles.forEach((c, i) => gradeChances(c, k, eye, chances, i * grades));
  let total = 0;
  for (let g = 0; g < grades; g++) {
    let best = Infinity;
    for (const next of COARSE) {
      let sum = 0;
      for (let i = 0; i < cycles.length; i++)
        sum += (cycles[i] as Cycle).weight * (chances[i * grades + g] as number) * ((regret[i] as Float64Array)[next] as number);
      if (sum < best) best = sum;
    }
    total += best;
  }
  return total;
}

/** The value at k of a function known at the COARSE points only. */
function between(values: readonly number[], k: number): number {
  let j = 0;
  while (j < COARSE.length - 2 && (COARSE[j + 1] as number) < k) j++;
  const [from, to] = [COARSE[j] as number, COARSE[j + 1] as number];
  const x = Math.max(0, Math.min(1, (k - from) / (to - from)));
  return (values[j] as number) + x * ((values[j + 1] as number) - (values[j] as number));
}

export type Choice = {
  /** Cheapest interval in weeks, looking ahead to what its visit will teach; null when waiting is always cheaper. */
  weeks: number | null;
  /** The trip is shared there with another visit to the kitchen. */
  rides: boolean;
  /** Weeks after which the first accepted risk is passed, and which that is; Infinity = not within the years looked at. */
  riskWeeks: number;
  binds: 'limit' | 'packed';
  /** Expected money that keeping to the risk costs over one cycle, where it is what decides; else 0. */
  riskCost: number;
  /** Plain long-run cost of each interval under the whole belief, for drawing and for looking up. */
  curve: CostPoint[];
};

/** Weighted mean over hypotheses of what `of` picks, at each interval. */
function means(cycles: readonly Cycle[], of: (c: Cycle) => Float64Array): Float64Array {
  const sum = new Float64Array(WEEKS.length);
  let weight = 0;
  for (const c of cycles) {
    const values = of(c);
    weight += c.weight;
    for (let k = 0; k < sum.length; k++) sum[k]! += c.weight * (values[k] as number);
  }
  return sum.map((x) => x / weight);
}

/** Accepted chances of passing the limit, and of a coil being packed when its date comes. */
export type Accepted = { limit: number; packed: number };

/** The first interval at which an accepted chance is reached (−1: none), and the weeks at which it is. */
function firstOver(chances: Float64Array, accepted: number): { k: number; weeks: number } {
  const k = accepted < 1 ? chances.findIndex((p) => p >= accepted) : -1;
  return { k, weeks: k < 0 ? Infinity : crossing(chances, k, accepted) };
}

/** Chooses the next interval of a belief laid out as cycles. */
export function choose(cycles: readonly Cycle[], usual: number, accepted: Accepted, eye: Eye, cleaning?: CleaningCost): Choice {
  const regret = regrets(cycles, usual);
  const likely = cycles.map((c, i) => ({ c, r: regret[i] as Float64Array })).filter(({ c }) => c.weight > UNLIKELY);
  const learned = COARSE.map((k) => regretAfter(likely.map((l) => l.c), likely.map((l) => l.r), k, eye)); // prettier-ignore
  const failure = means(cycles, (c) => c.failure);
  let index = 0;
  const total = means(cycles, () => regret[index++] as Float64Array).map(
    (now, k) => now + between(learned, k) + (cleaning ? (cleaning(k) - usual) * (1 - (failure[k] as number)) : 0),
  );
  let best = 0;
  for (let k = 1; k < WEEKS.length; k++) if ((total[k] as number) < (total[best] as number)) best = k;
  const limit = firstOver(means(cycles, (c) => c.passed), accepted.limit); // prettier-ignore
  const packed = firstOver(means(cycles, (c) => c.packed), accepted.packed); // prettier-ignore
  const binds = packed.weeks < limit.weeks ? 'packed' : 'limit';
  const first = binds === 'packed' ? packed : limit;
  const held = first.k < 0 ? best : Math.max(0, first.k - 1);
  return {
    weeks: best === WEEKS.length - 1 ? null : (WEEKS[best] as number),
    rides: cleaning !== undefined && cleaning(best) < usual,
    riskWeeks: first.weeks,
    binds,
    riskCost: held < best ? (total[held] as number) - (total[best] as number) : 0,
    curve: curveOf(cycles, usual, failure),
  };
}

function curveOf(cycles: readonly Cycle[], usual: number, failure: Float64Array): CostPoint[] {
  const days = means(cycles, (c) => c.days);
  const spent = means(cycles, (c) => c.spent);
  const energy = means(cycles, (c) => c.energy);
  return WEEKS.map((weeks, k) => ({
    weeks,
    costPerDay: ((spent[k] as number) + usual * (1 - (failure[k] as number))) / (days[k] as number),
    failure: failure[k] as number,
    energyPerDay: (energy[k] as number) / (days[k] as number),
  }));
}

/** Weeks at which the chance reaches `risk`, between two points of the grid. */
function crossing(passed: Float64Array, k: number, risk: number): number {
  const to = WEEKS[k] as number;
  const from = k > 0 ? (WEEKS[k - 1] as number) : 0;
  const low = k > 0 ? (passed[k - 1] as number) : 0;
  const high = passed[k] as number;
  return high > low ? from + ((to - from) * (risk - low)) / (high - low) : to;
}
