import { DEFAULT_HYPER, type Ahead, type Hyper, type Limit } from '../fouling';
import { choose, type CleaningCost, type CostPoint } from './choose';
import { cycles, type Costs } from './cycle';
import type { UnitPolicy } from './policy';

export type { CostPoint } from './choose';

type Looks = Pick<Hyper, 'grades' | 'misread'>;

const NO_LIMIT: Limit = { name: 'none', lnK: -1e6 };
const packedAt = ({ grades }: Looks) => grades.thresholds[grades.thresholds.length - 1] ?? Infinity;
const eyeOf = ({ grades, misread }: Looks) => ({ ...grades, misread });

/**
 * Long-run cost per day of cleaning every so many weeks: age replacement (renewal-reward; Barlow & Proschan 1965) with
 * a running energy penalty, g(T) = (C + Cf·F(T) + ∫₀ᵀ(1−F)·e dt) / ∫₀ᵀ(1−F) dt. F is the chance of a breakdown, which
 * comes at `failureChancePerDay` once the limit is crossed and is followed by a cleaning. `fresh` is the belief just
 * after a cleaning; energy counts only what a cleaning could take away.
 */
export function costCurve(fresh: Ahead, policy: Omit<Costs, 'comebackCost' | 'lateDays'>, failureLimit: Limit): CostPoint[] {
  const all = cycles(fresh, { ...policy, comebackCost: 0, lateDays: 0 }, NO_LIMIT, failureLimit, Infinity);
  return choose(all, policy.cleaningCost, { limit: 1, packed: 1 }, eyeOf(DEFAULT_HYPER)).curve;
}

export type Targets = {
  /** Days after a cleaning at which the first accepted chance is reached; Infinity = not within the years looked at. */
  riskDays: number;
  riskLimit: Limit;
  /** Which accepted chance that is, of the limit or of a packed coil, and how large. */
  risk: { of: 'limit' | 'packed'; chance: number };
  /** Money that keeping to the risk costs over the next cycle where it decides, else 0. */
  riskCost: number;
  /** Cheapest next interval; null = "no finite optimum": cleaning never pays for itself by energy and failures alone. */
  cost: CostPoint | null;
  /** Cost against the interval, for drawing and for looking up other intervals. */
  curve: CostPoint[];
};

/** What cost and risk ask of the next interval of a belief just after a cleaning. */
export function targets(
  fresh: Ahead,
  policy: UnitPolicy,
  limits: readonly Limit[],
  failureLimit: Limit,
  looks: Looks = DEFAULT_HYPER,
  cleaning?: CleaningCost,
): Targets {
  if (limits.length === 0) throw new RangeError('At least one limit is needed.');
  // All limits lie on one falling line, so the shallowest is the first to be crossed.
  const riskLimit = limits.reduce((a, b) => (b.lnK > a.lnK ? b : a));
  const all = cycles(fresh, policy, riskLimit, failureLimit, packedAt(looks));
  const accepted = { limit: policy.risk, packed: policy.packedRisk };
  const { weeks, rides, riskWeeks, binds, riskCost, curve } = choose(all, policy.cleaningCost, accepted, eyeOf(looks), cleaning);
  const point = weeks === null ? undefined : curve.find((p) => p.weeks === weeks);
  return {
    riskDays: 7 * riskWeeks,
    riskLimit,
    risk: { of: binds, chance: accepted[binds] },
    riskCost,
    cost: point ? { ...point, ...(rides ? { rides } : {}) } : null,
    curve,
  };
}

/** Weeks that cost and risk together ask for, with room for the visit to come as late as visits do; Infinity without a limit. */
export function wantedWeeks({ riskDays, cost }: Pick<Targets, 'riskDays' | 'cost'>, { lateDays }: Pick<UnitPolicy, 'lateDays'>): number {
  const days = Math.min(riskDays, cost ? cost.weeks * 7 : Infinity);
  // Very short intervals are not made nothing by lateness.
  return Math.max(days - lateDays, days * 0.6) / 7;
}
