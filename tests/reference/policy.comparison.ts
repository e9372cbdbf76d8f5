import { compareIn, type Side } from '../../scripts/simulation/compare';
import { WORLDS, type WorldKind } from '../../scripts/simulation/worlds';
import type { Comparison } from './comparison';

/** None of these seeds set anything; the two fleets are few, so the bounds are wider than the targets over many seeds. */
const SEEDS = [2026, 2027];
const YEARS = 3;
const SOURCE = `The product's own simulator: invented fleets, ${YEARS} years, seeds ${SEEDS.join(', ')} (scripts/simulate-policy.ts)`;

/** A regression check on our own simulator, not an outside truth: the decision against a calendar and a rule on a card. */
export function comparisons(): Comparison[] {
  const r = compareIn(WORLDS[0] as WorldKind, SEEDS, YEARS, 6);
  const of = (name: string) => r.sides.find((s) => s.policy === name) as Side;
  const [ours, fixed, rule] = [of('the product'), of('fixed 90 days'), of('good simple rule')];
  const money = (s: Side) => `${s.costPerUnitYear.toFixed(0)} ± ${s.costSe.toFixed(0)}`;
  const common = { regression: true as const, source: SOURCE, samples: r.fleets, expectedSamples: SEEDS.length };
  return [
    {
      ...common,
      id: 'policy-cost',
      quantity: `simulated cost a unit-year over that of quarterly: $${money(ours)} against $${money(fixed)}`,
      unit: '1',
      tolerance: 0.8,
      worst: ours.costPerUnitYear / fixed.costPerUnitYear,
    },
    {
      ...common,
      id: 'policy-rule',
      quantity: `simulated cost a unit-year over that of a good simple rule: $${money(ours)} against $${money(rule)}`,
      unit: '1',
      tolerance: 1,
      worst: ours.costPerUnitYear / rule.costPerUnitYear,
    },
    {
      ...common,
      id: 'policy-bands',
      quantity: 'share of simulated crossing dates within their 80 % band, off 80 %',
      unit: '1',
      tolerance: 0.06,
      worst: Math.abs((ours.coverage80 ?? NaN) - 0.8),
    },
  ];
}
