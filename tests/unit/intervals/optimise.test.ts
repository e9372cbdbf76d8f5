import { describe, expect, it } from 'vitest';
import type { Ahead } from '@/lib/core/fouling';
import { AT, STRIDE } from '@/lib/core/fouling/filter';
import { RATE_CENTRES, RATE_COUNT } from '@/lib/core/fouling/hyper';
import { DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import {
  asymptoticPenalty,
  costCurve,
  DEFAULT_POLICY as P,
  linearPenalty,
  settle,
  targets,
  whatIf,
  type WhatIfUnit,
} from '@/lib/core/intervals';
import { historyOf, visit } from './support';

/** A belief without doubt: one rate, nothing random. */
function certain(rate: number, tauDays: number | null, left = 0): Ahead {
  const bank = new Float64Array(STRIDE);
  bank[AT.ID] = tauDays === null ? 0 : RATE_COUNT;
  bank[AT.RATE] = rate;
  bank[AT.Q] = left;
  return {
    bank,
    weights: [1],
    age: 0,
    day: 0,
    hyper: {
      diffusion: 1e-9,
      drift: 0,
      restore: { ...DEFAULT_HYPER.restore, baked: 0 },
      // Of the slowest piece, whose τ is the days in which it would come to the ceiling in a line.
      levelling: { probability: 0.5, ceiling: (tauDays ?? 100) * Math.exp(RATE_CENTRES[0] as number) },
      accelerating: DEFAULT_HYPER.accelerating,
      season: null,
    },
  };
}
const never = { name: 'trip', lnK: -1e6 };
const prices = { cleaningCost: 120, energyCostPerDayPerLnK: 4, failureCost: 0, failureChancePerDay: 0 };

describe('cheapest interval', () => {
  it('is the square-root law when growth is a line and nothing fails', () => {
    const exact = linearPenalty(120, 4 * 0.005);
    const best = costCurve(certain(0.005, null), prices, never).reduce((a, b) => (b.costPerDay < a.costPerDay ? b : a));
    expect(Math.abs(best.weeks * 7 - (exact?.days ?? NaN))).toBeLessThanOrEqual(7);
    expect(best.costPerDay).toBeCloseTo(exact?.costRate ?? NaN, 2);
  });

  it('counts what a cleaning leaves to those after it: every cycle begins where the one before it ended', () => {
    // Cleanings that leave a quarter of what they meet, lived through for long, every so many weeks.
    const lived = (weeks: number) => {
      let [deposit, cost] = [0, 0];
      for (let day = 1; day <= 200 * 7 * weeks; day++) {
        cost += 4 * (deposit + 0.005 / 2);
        deposit += 0.005;
        if (day % (7 * weeks) === 0) [deposit, cost] = [0.25 * deposit, cost + 120];
      }
      return cost / (200 * 7 * weeks);
    };
    const curve = costCurve(certain(0.005, null, 0.25), prices, never).filter(({ weeks }) => weeks <= 30);
    const found = curve.reduce((a, b) => (b.costPerDay < a.costPerDay ? b : a));
    const best = curve.map(({ weeks }) => ({ weeks, cost: lived(weeks) })).reduce((a, b) => (b.cost < a.cost ? b : a));
    expect(Math.abs(found.weeks - best.weeks)).toBeLessThanOrEqual(1);
    expect(found.costPerDay / best.cost).toBeCloseTo(1, 1);
    expect(found.weeks).toBeLessThan((linearPenalty(120, 4 * 0.005)?.days ?? NaN) / 7);
  });

  it('is the Kern–Seaton optimum when growth levels off, or none at all', () => {
    // p∞ = 4 a day, τ = 90 days: rate τ⁻¹ for an asymptote of 1.
    const exact = asymptoticPenalty(120, 4, 90);
    const best = costCurve(certain(1 / 90, 90), prices, never).reduce((a, b) => (b.costPerDay < a.costPerDay ? b : a));
    expect(Math.abs(best.weeks * 7 - (exact?.days ?? NaN))).toBeLessThanOrEqual(7);
    expect(best.costPerDay).toBeCloseTo(exact?.costRate ?? NaN, 2);
    const settings = { ...P, ...prices, cleaningCost: 400, packedRisk: 1 };
    expect(targets(certain(1 / 90, 90), settings, [{ name: 'cooling', lnK: -5 }], never)).toMatchObject({
      cost: null,
      riskDays: Infinity,
    });
  });

  it('cleans just before a sure and dear breakdown', () => {
    const curve = costCurve(
      certain(0.005, null),
      { ...prices, cleaningCost: 60, energyCostPerDayPerLnK: 0, failureCost: 5000, failureChancePerDay: 1 },
      { name: 'trip', lnK: -0.72, sd: 0 },
    );
    expect(curve.reduce((a, b) => (b.costPerDay < a.costPerDay ? b : a)).weeks).toBe(20);
  });

  it('takes a price of energy that is a curve', () => {
    const line = costCurve(certain(0.005, null), prices, never);
    const curve = costCurve(certain(0.005, null), { ...prices, energyCostPerDayPerLnK: (y) => 4 * y }, never);
    expect(curve.map((c) => c.costPerDay)).toEqual(line.map((c) => c.costPerDay));
  });
});

describe('what if', () => {
  const fleet: WhatIfUnit[] = ['fryer', 'line', 'bar'].flatMap((placement) =>
    ['a', 'b'].map((kitchenId) => {
      const { last, ...history } = historyOf([visit(60, 'furred'), visit(60, 'filmed')]);
      expect(last).toBeDefined();
      return {
        kitchenId,
        posterior: posterior(history, { placement: placement as 'fryer', kitchenId }, DEFAULT_HYPER),
      };
    }),
  );

  it('with less risk asks for more visits and no longer intervals', () => {
    const limits = [{ name: 'cooling', lnK: -0.3 }];
    const { a, b } = whatIf(fleet, { ...P, limits }, { ...P, limits, risk: 0.02 });
    expect(b.visitsPerMonth).toBeGreaterThan(a.visitsPerMonth);
    expect(b.cleaningsPerMonth).toBeGreaterThan(a.cleaningsPerMonth);
    b.weeks.forEach((w, i) => expect(w).toBeLessThanOrEqual(a.weeks[i] as number));
  });

  it('shares visits within a kitchen and adds its money up', () => {
    const r = settle(fleet, P);
    expect(r.visitsPerMonth).toBeLessThan(r.cleaningsPerMonth);
    expect(r.costPerMonth.mean).toBeCloseTo(r.costPerMonth.cleaning + r.costPerMonth.energy + r.costPerMonth.failures, 9);
    expect(r.costPerMonth.low).toBeLessThanOrEqual(r.costPerMonth.mean);
    expect(r.costPerMonth.high).toBeGreaterThan(r.costPerMonth.mean);
    expect(settle([], P)).toMatchObject({ visitsPerMonth: 0, cleaningsPerMonth: 0, meanRisk: 0, weeks: [] });
  });

  it('leaves held intervals alone', () => {
    expect(settle([{ ...(fleet[0] as WhatIfUnit), heldWeeks: 9 }], P).weeks).toEqual([9]);
  });
});
