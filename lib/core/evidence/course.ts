import { addDays, daysBetween, type LocalDate } from '../calendar';
import {
  ahead,
  believedByDay,
  crossedWithin,
  forecast,
  quantilesOf,
  type Ahead,
  type DateForecast,
  type FoulingPosterior,
  type Limit,
} from '../fouling';
import { findRoot } from '../numerics';
import { exposureOf, type FleetBelief, type UnitBelief } from './beliefs';

/** Belief on one day: ln(K/K_clean), median with its 10–90 % band. `met`: before the day's own evidence and work. */
export type CoursePoint = { on: LocalDate; median: number; low: number; high: number; stage: 'met' | 'left' | 'ahead' };

/** What a drawing of some hundred points a unit of ln K can show. */
const AS_DRAWN = 0.001;

/** Deposit that has been reached with probability `p` within `days`, of which there is at least one. */
function depositQuantile(a: Ahead, p: number, days: number): number {
  const off = (deposit: number) => crossedWithin(a, -deposit, days) - p;
  // Belief is normal, so it reaches a little beyond clean.
  let [lo, hi] = [-0.5, 0.5];
  while (off(hi) > 0) {
    if (hi >= 8) return hi;
    [lo, hi] = [hi, hi * 2];
  }
  return findRoot(off, lo, hi, { tolerance: AS_DRAWN }).value;
}

/**
 * How the belief about a coil went, day of evidence by day of evidence: what was expected when somebody came, and what
 * was believed when he left. As it was known then, not as it looks now.
 */
export function course(belief: UnitBelief, fleet: FleetBelief): CoursePoint[] {
  return believedByDay(belief.evidence.history, exposureOf(belief.file), fleet.fouling, belief.fouling.fromKitchen).flatMap(
    ({ on, met, left }): CoursePoint[] => [
      { on, stage: 'met', ...met },
      { on, stage: 'left', median: left.mean, low: left.low, high: left.high },
    ],
  );
}

/** The fan of what is to come if nothing is done, from `from` over so many days. */
export function fanAhead(fouling: FoulingPosterior, from: LocalDate, days: number, steps = 8): CoursePoint[] {
  const start = from < fouling.asOf ? fouling.asOf : from;
  const a = ahead(fouling, start);
  return Array.from({ length: steps + 1 }, (_, i): CoursePoint => {
    const d = Math.round((days * i) / steps);
    const at = (p: number) => -depositQuantile(a, p, d);
    const quantiles = d === 0 ? quantilesOf(a.bank, a.weights) : { median: at(0.5), low: at(0.1), high: at(0.9) };
    return { on: addDays(start, d), stage: 'ahead', ...quantiles };
  });
}

/** When each limit will be crossed if the coil is left alone, soonest first. */
export function limitDates(fouling: FoulingPosterior, limits: readonly Limit[], from: LocalDate): DateForecast[] {
  const start = from < fouling.asOf ? fouling.asOf : from;
  return limits.map((l) => forecast(fouling, l, start)).sort((x, y) => ((x.quantiles.p50 ?? '9') < (y.quantiles.p50 ?? '9') ? -1 : 1));
}

/** Days to look ahead: to well past the due date, half a year at most unless it is due later. */
export function fanDays(from: LocalDate, dueOn: LocalDate | null): number {
  const due = dueOn ? daysBetween(from, dueOn) : 0;
  return Math.max(60, Math.min(400, due + 45));
}
