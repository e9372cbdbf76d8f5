import { crossedWithin, daysToRisk, depositAfter, type Ahead, type Limit } from '../fouling';
import type { ShopPolicy } from './policy';

/** Weeks at which cost is looked at: every week at first, then coarser, to ten years. */
const WEEKS = [
  ...Array.from({ length: 20 }, (_, i) => i + 1),
  ...Array.from({ length: 16 }, (_, i) => 22 + 2 * i),
  ...Array.from({ length: 12 }, (_, i) => 56 + 4 * i),
  ...Array.from({ length: 16 }, (_, i) => 117 + 27 * i),
];

export type CostPoint = {
  weeks: number;
  /** Money per day. */
  costPerDay: number;
  /** Probability of a breakdown before the cleaning. */
  failure: number;
  /** Mean extra energy cost per day over the cycle. */
  energyPerDay: number;
};

/**
 * Long-run cost per day of cleaning every so many weeks: age replacement (renewal-reward; Barlow & Proschan 1965) with
 * a running energy penalty, g(T) = (C + Cf·F(T) + ∫₀ᵀ(1−F)·e dt) / ∫₀ᵀ(1−F) dt. F is the chance of a breakdown, which
 * comes at `failureChancePerDay` once the limit is crossed and is followed by a cleaning. `fresh` is the belief just
 * after a cleaning; energy counts only what a cleaning could take away.
 */
export function costCurve(
  fresh: Ahead,
  policy: Pick<ShopPolicy, 'cleaningCost' | 'energyCostPerDayPerLnK' | 'failureCost' | 'failureChancePerDay'>,
  failureLimit: Limit,
): CostPoint[] {
  const energy = policy.energyCostPerDayPerLnK;
  const price = typeof energy === 'function' ? energy : (deposit: number) => energy * deposit;
  const gained = (y: number, start: number) => price(y) - price(start);
  let [area, spent, day, hazard] = [0, 0, 0, 0];
  let before = { survival: 1, extra: 0, beyond: crossedWithin(fresh, failureLimit.lnK, 0) };
  return WEEKS.map((weeks) => {
    const step = weeks * 7 - day;
    day = weeks * 7;
    const beyond = crossedWithin(fresh, failureLimit.lnK, day);
    hazard += (policy.failureChancePerDay * step * (beyond + before.beyond)) / 2;
    const now = { survival: Math.exp(-hazard), extra: depositAfter(fresh, day, gained), beyond };
    area += (step * (now.survival + before.survival)) / 2;
    spent += (step * (now.survival * now.extra + before.survival * before.extra)) / 2;
    before = now;
    const failure = 1 - now.survival;
    const total = policy.cleaningCost + policy.failureCost * failure + spent;
    return { weeks, costPerDay: total / area, failure, energyPerDay: spent / area };
  });
}

export type Targets = {
  /** Days after a cleaning at which the first limit reaches the accepted risk; Infinity = never within ten years. */
  riskDays: number;
  riskLimit: Limit;
  /** Cheapest interval; null = "no finite optimum": cleaning never pays for itself by energy and failures alone. */
  cost: CostPoint | null;
  /** Cost against the interval, for drawing and for looking up other intervals. */
  curve: CostPoint[];
};

export function targets(fresh: Ahead, policy: ShopPolicy, limits: readonly Limit[], failureLimit: Limit): Targets {
  if (limits.length === 0) throw new RangeError('At least one limit is needed.');
  // All limits lie on one falling line, so the shallowest is the first to be crossed.
  const riskLimit = limits.reduce((a, b) => (b.lnK > a.lnK ? b : a));
  const curve = costCurve(fresh, policy, failureLimit);
  const best = curve.reduce((a, b) => (b.costPerDay < a.costPerDay ? b : a));
  const last = curve[curve.length - 1];
  return {
    riskDays: daysToRisk(fresh, riskLimit.lnK, policy.risk),
    riskLimit,
    cost: best === last ? null : best,
    curve,
  };
}
