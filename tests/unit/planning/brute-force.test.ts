import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan, planWeek, type LpSolver } from '@/lib/core/planning';
import { runOut } from '@/lib/core/planning/steps';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { cheapestPlanCost } from '../../support/planning-brute-force';
import { tinyWeek } from '../../support/planning-weeks';

const WEEKS = 2000;
let lp: LpSolver;
beforeAll(async () => {
  lp = await highsLp();
});

describe('tiny weeks with windows, skills and bundles', () => {
  it(`costs what trying every plan costs, in ${WEEKS} weeks`, { timeout: 600_000 }, () => {
    let withVisits = 0;
    let withSeveral = 0;
    let withLeft = 0;
    for (let seed = 0; seed < WEEKS; seed++) {
      const week = tinyWeek(seed);
      const plan = runOut(planWeek(week, { seed: 1, timeLimitMs: 1e9, now: () => 0, lp }));
      const cheapest = cheapestPlanCost(week);
      expect(plan.cost.total, `week ${seed}`).toBeCloseTo(cheapest, 6);
      expect(plan.proven, `week ${seed}`).toBe(true);
      expect(plan.lowerBound, `week ${seed}`).toBeLessThanOrEqual(plan.cost.total);
      expect(checkPlan(week, plan), `week ${seed}`).toEqual([]);
      if (plan.visits.length > 0) withVisits++;
      if (plan.visits.length > 1) withSeveral++;
      if (plan.unplaced.length > 0) withLeft++;
    }
    // The weeks must be worth trying: many with a choice of visits, many with something left.
    expect(withVisits).toBeGreaterThan(WEEKS / 2);
    expect(withSeveral).toBeGreaterThan(WEEKS / 5);
    expect(withLeft).toBeGreaterThan(WEEKS / 10);
  });

  it('the search alone, without a bound, finds almost all of them', { timeout: 120_000 }, () => {
    let missed = 0;
    for (let seed = 0; seed < 200; seed++) {
      const week = tinyWeek(seed);
      const plan = runOut(planWeek(week, { seed: 1, timeLimitMs: 1e9, now: () => 0 }));
      const cheapest = cheapestPlanCost(week);
      expect(plan.cost.total).toBeGreaterThan(cheapest - 1e-6);
      expect(plan.lowerBound).toBeLessThan(cheapest + 1e-6);
      if (plan.cost.total > cheapest + 1e-6) missed++;
    }
    expect(missed).toBeLessThan(8);
  });
});
