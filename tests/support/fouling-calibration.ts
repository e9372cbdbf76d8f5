import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { PLACEMENTS } from '@/lib/core/equipment/build';
import {
  ahead,
  crossedWithin,
  DEFAULT_HYPER,
  fleetPosteriors,
  forecast,
  type FleetUnit,
  type FoulingPosterior,
  type Hyper,
} from '@/lib/core/fouling';
import { AT, depositMean, depositVariance, STRIDE } from '@/lib/core/fouling/filter';
import { RandomStream } from '@/lib/core/numerics/random';
import { drawUnit, passageDays, REACH, type DrawnUnit } from './fouling-model';

/** Draws from each posterior against which a truth is ranked. */
const DRAWS = 99;

export type Ranks = Record<'rate' | 'deposit' | 'restored' | 'crossing45' | 'crossing60', number[]>;

function rank(s: RandomStream, truth: number, weights: readonly number[], draw: (piece: number) => number): number {
  let below = 0;
  for (let d = 0; d < DRAWS; d++) {
    let u = s.next();
    let piece = 0;
    while (piece < weights.length - 1 && (u -= weights[piece] as number) > 0) piece++;
    if (draw(piece) < truth) below++;
  }
  // Spread within the rank, so that ranks fill (0, 1) evenly whatever the number of bins.
  return (below + s.next()) / (DRAWS + 1);
}

function rankUnit(s: RandomStream, ranks: Ranks, p: FoulingPosterior, drawn: DrawnUnit, hyper: Hyper): void {
  const now = ahead(p, drawn.end);
  const { bank } = now;
  const w = p.state.weights;
  const normal = (mean: number, variance: number) => s.normal(mean, Math.sqrt(Math.max(variance, 0)));
  const value = (piece: number, at: number) => bank[piece * STRIDE + at] as number;
  const { truth } = drawn;
  ranks.rate.push(rank(s, truth.rate, w, (i) => normal(value(i, AT.RATE), value(i, AT.XX))));
  ranks.restored.push(rank(s, truth.lost, w, (i) => normal(value(i, AT.Q), value(i, AT.QQ))));
  ranks.deposit.push(
    rank(s, truth.fresh + truth.residue, w, (i) => normal(depositMean(bank, i * STRIDE), depositVariance(bank, i * STRIDE))),
  );
  for (const [name, level] of [
    ['crossing45', 0.45],
    ['crossing60', 0.6],
  ] as const) {
    const days = passageDays(s, { ...truth }, hyper, level);
    const upTo = (d: number) => crossedWithin(now, -level, d);
    // Past the horizon, or already there: anywhere in the mass that lies there.
    ranks[name].push(days === Infinity ? upTo(REACH) + (1 - upTo(REACH)) * s.next() : days === 0 ? upTo(0) * s.next() : upTo(days));
  }
}

function inBand(s: RandomStream, p: FoulingPosterior, drawn: DrawnUnit, hyper: Hyper): boolean | null {
  const truth = { ...drawn.truth };
  if (truth.fresh + truth.residue >= 0.45) return null;
  const days = passageDays(s, truth, hyper, 0.45);
  const { quantiles, ever } = forecast(p, { name: 'limit', lnK: -0.45 }, drawn.end);
  if (days === Infinity) {
    // Not within the horizon: anywhere in the share of the forecast that lies beyond it.
    const place = ever + (1 - ever) * s.next();
    return place >= 0.1 && place <= 0.9;
  }
  const until = (date: LocalDate | null) => (date === null ? Infinity : daysBetween(drawn.end, date));
  const on = Math.ceil(days);
  return on >= until(quantiles.p10) && on <= until(quantiles.p90);
}

/**
 * Small fleets (two kitchens of three units) drawn from the model: ranks of one unit of each, bands of all. `believed`
 * is what the estimator holds; it differs from the truth only to see that the check bites.
 */
export function calibrate(
  seed: number,
  fleets: number,
  hyper: Hyper = DEFAULT_HYPER,
  believed: Hyper = hyper,
): { ranks: Ranks; bands: boolean[] } {
  const ranks: Ranks = { rate: [], deposit: [], restored: [], crossing45: [], crossing60: [] };
  const bands: boolean[] = [];
  for (let fleet = 0; fleet < fleets; fleet++) {
    const s = new RandomStream(seed, `fleet ${fleet}`);
    const units: FleetUnit[] = [];
    const drawn: DrawnUnit[] = [];
    for (let kitchen = 0; kitchen < 2; kitchen++) {
      const effect = hyper.kitchenSd * s.normal();
      for (let i = 0; i < 3; i++) {
        const placement = s.pick(PLACEMENTS);
        const unit = drawUnit(s, hyper, placement, effect, s.whole(0, 8));
        drawn.push(unit);
        units.push({ history: unit.history, exposure: { placement, kitchenId: `k${kitchen}` } });
      }
    }
    const posteriors = fleetPosteriors(units, believed);
    const one = s.whole(0, units.length - 1);
    rankUnit(s, ranks, posteriors[one] as FoulingPosterior, drawn[one] as DrawnUnit, hyper);
    posteriors.forEach((p, i) => {
      const held = inBand(s, p, drawn[i] as DrawnUnit, hyper);
      if (held !== null) bands.push(held);
    });
  }
  return { ranks, bands };
}

/** Pearson's chi-square of values in [0, 1) against evenly filled bins. */
export function chiSquare(values: readonly number[], bins: number): number {
  const counts = new Array<number>(bins).fill(0);
  for (const v of values) counts[Math.min(bins - 1, Math.floor(v * bins))]! += 1;
  const expected = values.length / bins;
  return counts.reduce((sum, c) => sum + (c - expected) ** 2 / expected, 0);
}
