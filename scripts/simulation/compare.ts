import { DEFAULT_POLICY } from '../../lib/core/intervals';
import { knowing } from './knowing';
import { product, TOLD_FLEET, TOLD_UNITS, TOLD_UNITS_FREE, toldFleet, toldUnits } from './product';
import { crude, everyDays, fixed, goodRule } from './rivals';
import { emptyTally, runWorld, type Policy, type Tally } from './run';
import { makeWorld, type World } from './world';
import type { WorldKind } from './worlds';

export type Side = {
  policy: string;
  costPerUnitYear: number;
  /** Standard error of that over fleets. */
  costSe: number;
  shareFoundPacked: number;
  packedPerUnitYear: number;
  cleaningsPerUnitYear: number;
  changesPerUnitYear: number;
  failuresPerUnitYear: number;
  /** Share of crossings that fell inside the 80 % band of the forecast date; null where none is made. */
  coverage80: number | null;
  early: number | null;
  late: number | null;
};

/** The product's over another policy's, over all fleets, with its standard error by leaving each fleet out (jackknife; Efron 1982). */
export type Over = { ratio: number; se: number };
export type Comparison = {
  world: string;
  description: string;
  fleets: number;
  units: number;
  years: number;
  sides: Side[];
  /** `known`: the best constant interval for whoever knows each unit's rate and shape, not its luck. */
  cost: { rule: Over; hindsight: Over; known: Over };
};

const YEAR = 365.25;
/** Constant intervals that hindsight may choose from for each unit, in weeks. */
const HINDSIGHT_WEEKS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 23, 26, 30, 35, 40, 46, 52, 65, 78, 104];

const sumOf = (tallies: readonly Tally[]): Tally => {
  const sum = emptyTally();
  for (const t of tallies) for (const k of Object.keys(sum) as (keyof Tally)[]) sum[k] += t[k];
  return sum;
};

function side(policy: string, fleets: readonly Tally[]): Side {
  const sum = sumOf(fleets);
  const unitYears = sum.unitDays / YEAR;
  const each = fleets.map((t) => (t.cost / t.unitDays) * YEAR);
  const mean = each.reduce((a, b) => a + b, 0) / each.length;
  const variance = each.reduce((a, b) => a + (b - mean) ** 2, 0) / Math.max(1, each.length - 1);
  const share = (n: number) => (sum.forecasts > 0 ? n / sum.forecasts : null);
  return {
    policy,
    costPerUnitYear: sum.cost / unitYears,
    costSe: Math.sqrt(variance / each.length),
    shareFoundPacked: sum.foundPacked / Math.max(1, sum.met),
    packedPerUnitYear: sum.foundPacked / unitYears,
    cleaningsPerUnitYear: sum.cleanings / unitYears,
    changesPerUnitYear: sum.changes / unitYears,
    failuresPerUnitYear: sum.failures / unitYears,
    coverage80: share(sum.covered),
    early: share(sum.early),
    late: share(sum.late),
  };
}

const yearly = (fleets: readonly Tally[]): number => sumOf(fleets).cost / sumOf(fleets).unitDays;

function over(ours: readonly Tally[], theirs: readonly Tally[]): Over {
  const ratio = yearly(ours) / yearly(theirs);
  const without = ours.map((_, i) => yearly(ours.filter((__, j) => j !== i)) / yearly(theirs.filter((__, j) => j !== i)));
  const mean = without.reduce((a, b) => a + b, 0) / without.length;
  const n = without.length;
  return { ratio, se: Math.sqrt(((n - 1) / n) * without.reduce((a, x) => a + (x - mean) ** 2, 0)) };
}

const RULE = 'good simple rule';
const HINDSIGHT = 'best constant in hindsight';
const FORESIGHT = 'knows units, not their luck';
/**
 * What whoever knows the units may hold a packed find or a breakdown worse by than the money it costs, in US dollars: hindsight counts
 * packed finds for nothing, so these say what fewer of them cost whoever needs to learn nothing.
 */
const PACKED_PRICES = [400, 800, 1200, 2000];
const foresightAt = (price: number): string => `the same, packed at $${price}`;
/** Other lives of the same units, on which whoever knows them chooses. */
const LIVES = 4;

const constants = (world: World, seed: number, fleet: number, limit: number): Tally[][] =>
  HINDSIGHT_WEEKS.map((w) => runWorld(world, everyDays(7 * w), seed, fleet, limit));

const cheapest = (costs: readonly number[]): number => costs.reduce((best, c, k) => (c < (costs[best] as number) ? k : best), 0);

/**
 * The cheapest constant interval of each unit, chosen when everything is over: nobody could have known it. And the one that is
 * cheapest in the mean of `LIVES` other lives of the same unit, all that could be known of it beforehand, also with a price on
 * packed finds.
 */
function constantRivals(kind: WorldKind, world: World, seed: number, years: number, kitchens: number | undefined, limit: number) {
  const runs = constants(world, seed, 0, limit);
  const others = Array.from({ length: LIVES }, (_, n) =>
    constants(makeWorld(kind, seed, 0, years, kitchens, n + 1), seed + 1_000_000 * (n + 1), 0, limit),
  );
  const at = (i: number, k: number) => (runs[k] as Tally[])[i] as Tally;
  const pick = (costOf: (i: number, k: number) => number) =>
    sumOf(world.units.map((_, i) => at(i, cheapest(HINDSIGHT_WEEKS.map((__, k) => costOf(i, k))))));
  // A breakdown is priced like a packed find, or going so seldom that coils break down first would count as finding none packed.
  const lived = (i: number, k: number, price: number) =>
    others.reduce((sum, life) => {
      const { cost, foundPacked, failures } = (life[k] as Tally[])[i] as Tally;
      return sum + cost + price * (foundPacked + failures);
    }, 0);
  return {
    [HINDSIGHT]: pick((i, k) => at(i, k).cost),
    [FORESIGHT]: pick((i, k) => lived(i, k, 0)),
    ...Object.fromEntries(PACKED_PRICES.map((price) => [foresightAt(price), pick((i, k) => lived(i, k, price))])),
  };
}

/** Prices of a packed find for whoever knows all but luck, in US dollars. */
const KNOWING_PRICES = [0, 150, 400, 800];
const knowingAt = (price: number): string => `knows all but luck, $${price}`;
const OTHER_LIVES = 8;

/** Whoever knows more than a shop can, as far as it was run, and the product. */
export const KNOWERS = [
  FORESIGHT,
  ...PACKED_PRICES.map(foresightAt),
  ...KNOWING_PRICES.map(knowingAt),
  TOLD_UNITS_FREE,
  TOLD_UNITS,
  TOLD_FLEET,
  'the product',
];

/** What knowing would be worth: the product's own decision told more, and dates by whoever knows everything but luck. */
function knowers(kind: WorldKind, world: World, seed: number, years: number, kitchens: number | undefined): Policy[] {
  const others = Array.from({ length: OTHER_LIVES }, (_, n) => makeWorld(kind, seed, 0, years, kitchens, n + 1));
  return [
    toldFleet(world),
    toldUnits(world, false),
    toldUnits(world, true),
    ...KNOWING_PRICES.map((price) => knowing(world, others, price, knowingAt(price))),
  ];
}

/** One fleet lived through under every policy. */
export type FleetRun = { world: string; seed: number; years: number; units: number; tallies: Record<string, Tally> };

export function runFleet(kind: WorldKind, seed: number, years: number, kitchens?: number, bounds = false): FleetRun {
  const limit = -Math.max(...DEFAULT_POLICY.limits.map((l) => l.lnK));
  const world = makeWorld(kind, seed, 0, years, kitchens);
  const ours = product(world);
  const firsts = world.units.map((_, i) => ours.first(i));
  const tallies: Record<string, Tally> = {};
  for (const policy of [ours, fixed, crude(), goodRule((i) => firsts[i] as number)] satisfies Policy[])
    tallies[policy.name] = sumOf(runWorld(world, policy, seed, 0, limit));
  if (bounds)
    for (const policy of knowers(kind, world, seed, years, kitchens)) tallies[policy.name] = sumOf(runWorld(world, policy, seed, 0, limit));
  Object.assign(tallies, constantRivals(kind, world, seed, years, kitchens, limit));
  return { world: kind.name, seed, years, units: world.units.length, tallies };
}

/** One kind of world over some seeds: the product beside its rivals. */
export const compareIn = (kind: WorldKind, seeds: readonly number[], years: number, kitchens?: number): Comparison =>
  compared(
    kind,
    seeds.map((seed) => runFleet(kind, seed, years, kitchens)),
    years,
  );

/** The same of fleets that have been lived through. */
export function compared(kind: WorldKind, fleets: readonly FleetRun[], years: number): Comparison {
  const rows = new Map<string, Tally[]>();
  for (const { tallies } of fleets) for (const [name, t] of Object.entries(tallies)) rows.set(name, [...(rows.get(name) ?? []), t]);
  const units = fleets.reduce((n, f) => n + f.units, 0);
  const sides = [...rows].map(([name, tallies]) => side(name, tallies));
  const of = (name: string) => rows.get(name) ?? [];
  const ratio = (name: string) => over(of('the product'), of(name));
  const cost = { rule: ratio(RULE), hindsight: ratio(HINDSIGHT), known: ratio(FORESIGHT) };
  return { world: kind.name, description: kind.description, fleets: fleets.length, units, years, sides, cost };
}
