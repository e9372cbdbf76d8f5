import { DEFAULT_POLICY, type ShopPolicy } from '../../lib/core/intervals';
import { evidencePolicy, fixedQuarterly } from './policies';
import { emptyTally, runWorld, type Tally } from './run';
import { makeWorld } from './world';

export type Side = {
  policy: string;
  costPerUnitYear: number;
  /** Standard error of that over fleets. */
  costSe: number;
  shareFoundPacked: number;
  cleaningsPerUnitYear: number;
  visitsPerUnitYear: number;
  failuresPerUnitYear: number;
};

export type Comparison = {
  seed: number;
  fleets: number;
  years: number;
  units: number;
  /** Share of crossings that fell inside the 80 % band of the forecast date, and how many were scored. */
  coverage80: number | null;
  forecasts: number;
  fixed: Side;
  evidence: Side;
  /** 0.25 = a quarter cheaper than fixed quarterly cleaning. */
  costSaved: number;
  /** Share found packed over that under fixed quarterly cleaning; null when nothing was found packed there. */
  packedRatio: number | null;
};

const YEAR = 365.25;

function side(policy: string, tallies: readonly Tally[]): Side {
  const sum = emptyTally();
  for (const t of tallies) for (const k of Object.keys(sum) as (keyof Tally)[]) sum[k] += t[k];
  const unitYears = sum.unitDays / YEAR;
  const each = tallies.map((t) => (t.cost / t.unitDays) * YEAR);
  const mean = each.reduce((a, b) => a + b, 0) / each.length;
  const variance = each.reduce((a, b) => a + (b - mean) ** 2, 0) / Math.max(1, each.length - 1);
  return {
    policy,
    costPerUnitYear: sum.cost / unitYears,
    costSe: Math.sqrt(variance / each.length),
    shareFoundPacked: sum.foundPacked / Math.max(1, sum.met),
    cleaningsPerUnitYear: sum.cleanings / unitYears,
    visitsPerUnitYear: (sum.cleanings + sum.returnVisits + sum.failures) / unitYears,
    failuresPerUnitYear: sum.failures / unitYears,
  };
}

/** Simulates `fleets` invented fleets for `years` under both policies. */
export function comparePolicies(seed: number, fleets: number, years: number, settings: ShopPolicy = DEFAULT_POLICY): Comparison {
  const fixed: Tally[] = [];
  const evidence: Tally[] = [];
  let units = 0;
  const limit = -Math.max(...settings.limits.map((l) => l.lnK));
  for (let fleet = 0; fleet < fleets; fleet++) {
    const world = makeWorld(seed, fleet, years);
    units += world.units.length;
    fixed.push(runWorld(world, fixedQuarterly, seed, fleet, limit));
    evidence.push(runWorld(world, evidencePolicy(world, settings), seed, fleet, limit));
  }
  const forecasts = evidence.reduce((a, t) => a + t.forecasts, 0);
  const covered = evidence.reduce((a, t) => a + t.covered, 0);
  const a = side('fixed quarterly', fixed);
  const b = side('by evidence', evidence);
  return {
    seed,
    fleets,
    years,
    units,
    forecasts,
    coverage80: forecasts === 0 ? null : covered / forecasts,
    fixed: a,
    evidence: b,
    costSaved: 1 - b.costPerUnitYear / a.costPerUnitYear,
    packedRatio: a.shareFoundPacked === 0 ? null : b.shareFoundPacked / a.shareFoundPacked,
  };
}
