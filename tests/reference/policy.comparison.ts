import { comparePolicies } from '../../scripts/simulation/compare';
import type { Comparison } from './comparison';

const SEED = 2026;
const FLEETS = 6;
const YEARS = 3;
const SOURCE = `Invented fleets, ${YEARS} years, seed ${SEED}, against fixed quarterly cleaning (scripts/simulate-policy.ts)`;

/** The policy on simulated fleets: at least 20 % cheaper, coils found packed at most half as often, honest bands. */
export function comparisons(): Comparison[] {
  const r = comparePolicies(SEED, FLEETS, YEARS);
  const money = (s: typeof r.fixed) => `${s.costPerUnitYear.toFixed(0)} ± ${s.costSe.toFixed(0)}`;
  const share = (s: typeof r.fixed) => `${(100 * s.shareFoundPacked).toFixed(1)} %`;
  const common = { regression: true as const, source: SOURCE, samples: r.fleets, expectedSamples: FLEETS };
  return [
    {
      ...common,
      id: 'policy-cost',
      quantity: `cost a unit-year over that of quarterly: $${money(r.evidence)} against $${money(r.fixed)}`,
      unit: '1',
      tolerance: 0.8,
      worst: 1 - r.costSaved,
    },
    {
      ...common,
      id: 'policy-packed',
      quantity: `share of coils found packed over that of quarterly: ${share(r.evidence)} against ${share(r.fixed)}`,
      unit: '1',
      tolerance: 0.5,
      worst: r.packedRatio ?? NaN,
    },
    {
      ...common,
      id: 'policy-bands',
      quantity: `share of ${r.forecasts} crossing dates within their 80 % band, off 80 %`,
      unit: '1',
      tolerance: 0.03,
      worst: Math.abs((r.coverage80 ?? NaN) - 0.8),
    },
  ];
}
