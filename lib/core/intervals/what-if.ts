import { afterCleaning, crossedWithin, type FoulingOutlook, type Limit } from '../fouling';
import { allowed } from './guards';
import { targets, type CostPoint } from './optimise';
import type { Bounds, UnitPolicy } from './policy';

export type WhatIfUnit = {
  kitchenId: string;
  posterior: FoulingOutlook;
  limits?: readonly Limit[];
  failureLimit?: Limit;
  bounds?: Bounds;
  /** Weeks that a lock or a contract's calendar holds in place. */
  heldWeeks?: number | null;
};

export type WhatIfResult = {
  /** Visits a month to kitchens (units due in the same week share one), and cleanings a month. */
  visitsPerMonth: number;
  cleaningsPerMonth: number;
  /** Money a month with the 10–90 % band of what the rates leave open: cleanings, energy, expected failures. */
  costPerMonth: { mean: number; low: number; high: number; cleaning: number; energy: number; failures: number };
  /** Mean chance that the first limit is crossed before a cleaning. */
  meanRisk: number;
  /** Weeks each unit settles at, in the order given. */
  weeks: number[];
};

const DAYS_PER_MONTH = 365.25 / 12;

/** Where a fleet settles under each of two policies, once the step rails have done their work. */
export function whatIf(fleet: readonly WhatIfUnit[], a: UnitPolicy, b: UnitPolicy): { a: WhatIfResult; b: WhatIfResult } {
  return { a: settle(fleet, a), b: settle(fleet, b) };
}

export function settle(fleet: readonly WhatIfUnit[], policy: UnitPolicy): WhatIfResult {
  const idle = new Map<string, number>();
  const sum = { cleanings: 0, cleaning: 0, energy: 0, failures: 0, variance: 0, risk: 0 };
  const weeks = fleet.map((unit) => {
    const limits = unit.limits ?? policy.limits;
    const failureLimit = unit.failureLimit ?? policy.failureLimit;
    const fresh = afterCleaning(unit.posterior);
    const goal = targets(fresh, policy, limits, failureLimit);
    const { min, max } = allowed('coil_cleaning', policy, unit.bounds ?? {});
    const wanted = Math.floor(Math.min(goal.riskDays / 7, goal.cost?.weeks ?? Infinity, max));
    const w = unit.heldWeeks ?? Math.max(min, Math.min(max, policy.minWeeksUnlessSevere), wanted);
    const at = nearest(goal.curve, w);
    const perMonth = DAYS_PER_MONTH / (7 * w);
    sum.cleanings += perMonth;
    sum.cleaning += perMonth * policy.cleaningCost;
    sum.energy += at.energyPerDay * DAYS_PER_MONTH;
    const failures = at.failure * policy.failureCost * perMonth;
    sum.failures += failures;
    // Energy scales with the rate; a failure either comes or does not.
    const relative = unit.posterior.rate.sd / Math.max(unit.posterior.rate.mean, 1e-9);
    sum.variance += (at.energyPerDay * DAYS_PER_MONTH * relative) ** 2 + at.failure * (1 - at.failure) * perMonth * policy.failureCost ** 2;
    sum.risk += crossedWithin(fresh, goal.riskLimit.lnK, 7 * w);
    idle.set(unit.kitchenId, (idle.get(unit.kitchenId) ?? 1) * (1 - 1 / w));
    return w;
  });
  const mean = sum.cleaning + sum.energy + sum.failures;
  const half = 1.2815515655446004 * Math.sqrt(sum.variance);
  let busyWeeks = 0;
  for (const p of idle.values()) busyWeeks += 1 - p;
  return {
    visitsPerMonth: (busyWeeks * DAYS_PER_MONTH) / 7,
    cleaningsPerMonth: sum.cleanings,
    costPerMonth: {
      mean,
      low: Math.max(sum.cleaning, mean - half),
      high: mean + half,
      cleaning: sum.cleaning,
      energy: sum.energy,
      failures: sum.failures,
    },
    meanRisk: fleet.length === 0 ? 0 : sum.risk / fleet.length,
    weeks,
  };
}

function nearest(curve: readonly CostPoint[], weeks: number): CostPoint {
  return curve.reduce((a, b) => (Math.abs(b.weeks - weeks) < Math.abs(a.weeks - weeks) ? b : a));
}
