import { Z80 } from '../condenser/bands';
import type { Figure } from '../condenser';
import { settle, type Bounds } from '../intervals';
import type { FoulingOutlook } from '../fouling';
import type { OwnLimits } from './own-limits';
import { settingsFor } from './revise-task';
import type { ShopPolicy } from '../intervals';

/** A unit with a coil task, as the question "what if" needs it. */
export type WhatIfCoil = {
  unitId: string;
  kitchenId: string;
  posterior: FoulingOutlook;
  /** Its own limits under the policy that is asked about. */
  own: OwnLimits | null;
  pricePerKwh: number | null;
  bounds: Bounds;
  /** Weeks that a lock or a contract holds in place. */
  heldWeeks: number | null;
};

export type WhatIfFleet = {
  units: number;
  visitsPerMonth: number;
  cleaningsPerMonth: number;
  costPerMonth: Figure;
  cleaning: number;
  energy: number;
  failures: number;
  /** Mean chance, over coils, that a cleaning comes too late for the first limit. */
  meanRisk: number;
  weeks: { unitId: string; weeks: number }[];
};

const WEEKS_PER_MONTH = 365.25 / 12 / 7;

/** Where the fleet settles under a policy, each coil with its own energy and limits; units due in one week share a visit. */
export function settleFleet(coils: readonly WhatIfCoil[], rules: ShopPolicy): WhatIfFleet {
  const idle = new Map<string, number>();
  const sum = { cleanings: 0, mean: 0, variance: 0, cleaning: 0, energy: 0, failures: 0, risk: 0 };
  const weeks = coils.map((c) => {
    const one = settle(
      [
        {
          kitchenId: c.kitchenId,
          posterior: c.posterior,
          bounds: c.bounds,
          heldWeeks: c.heldWeeks,
          ...(c.own && c.own.limits.length > 0 ? { limits: c.own.limits } : {}),
          ...(c.own?.failureLimit ? { failureLimit: c.own.failureLimit } : {}),
        },
      ],
      settingsFor(rules, c.own, c.pricePerKwh),
    );
    const { mean, high, cleaning, energy, failures } = one.costPerMonth;
    sum.cleanings += one.cleaningsPerMonth;
    sum.mean += mean;
    sum.variance += ((high - mean) / Z80) ** 2;
    sum.cleaning += cleaning;
    sum.energy += energy;
    sum.failures += failures;
    sum.risk += one.meanRisk;
    const w = one.weeks[0] as number;
    idle.set(c.kitchenId, (idle.get(c.kitchenId) ?? 1) * (1 - 1 / w));
    return { unitId: c.unitId, weeks: w };
  });
  let busy = 0;
  for (const p of idle.values()) busy += 1 - p;
  const half = Z80 * Math.sqrt(sum.variance);
  return {
    units: coils.length,
    visitsPerMonth: busy * WEEKS_PER_MONTH,
    cleaningsPerMonth: sum.cleanings,
    costPerMonth: { value: sum.mean, lo: Math.max(sum.cleaning, sum.mean - half), hi: sum.mean + half, level: 0.8 },
    cleaning: sum.cleaning,
    energy: sum.energy,
    failures: sum.failures,
    meanRisk: coils.length === 0 ? 0 : sum.risk / coils.length,
    weeks,
  };
}
