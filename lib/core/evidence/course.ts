import { addDays, daysBetween, type LocalDate } from '../calendar';
import {
  ahead,
  crossedWithin,
  forecast,
  posterior,
  updatePosterior,
  type Ahead,
  type DateForecast,
  type FoulingPosterior,
  type Limit,
  type UnitEvent,
} from '../fouling';
import { groupBy } from '../numerics/group-by';
import { exposureOf, type FleetBelief, type UnitBelief } from './beliefs';

/** Belief on one day: ln(K/K_clean), median with its 10–90 % band. `met`: before the day's own evidence and work. */
export type CoursePoint = { on: LocalDate; median: number; low: number; high: number; stage: 'met' | 'left' | 'ahead' };

/** L such that the deposit has reached L with probability `p` within `days`; bisection on a falling function. */
function depositQuantile(a: Ahead, p: number, days: number): number {
  // Belief is normal, so it reaches a little beyond clean.
  let [lo, hi] = [-0.5, 0.5];
  while (hi < 8 && crossedWithin(a, -hi, days) > p) [lo, hi] = [hi, hi * 2];
  while (hi - lo > 0.002) {
    const mid = (lo + hi) / 2;
    if (crossedWithin(a, -mid, days) > p) lo = mid;
    else hi = mid;
  }
  return (lo + hi) / 2;
}

function pointAt(a: Ahead, on: LocalDate, days: number, stage: CoursePoint['stage']): CoursePoint {
  return { on, stage, median: -depositQuantile(a, 0.5, days), low: -depositQuantile(a, 0.1, days), high: -depositQuantile(a, 0.9, days) };
}

/**
 * How the belief about a coil went, day of evidence by day of evidence: what was expected when somebody came, and what
 * was believed when he left. As it was known then, not as it looks now.
 */
export function course(belief: UnitBelief, fleet: FleetBelief): CoursePoint[] {
  const { history } = belief.evidence;
  const points: CoursePoint[] = [];
  let now: FoulingPosterior = posterior({ ...history, events: [] }, exposureOf(belief.file), fleet.fouling, belief.fouling.fromKitchen);
  const days = groupBy([...history.events], (e: UnitEvent) => e.on);
  for (const on of [...days.keys()].sort()) {
    points.push(pointAt(ahead(now, on), on, 0, 'met'));
    now = updatePosterior(now, days.get(on) as UnitEvent[], fleet.fouling);
    points.push({ on, stage: 'left', median: now.lnK.mean, low: now.lnK.low, high: now.lnK.high });
  }
  return points;
}

/** The fan of what is to come if nothing is done, from `from` over so many days. */
export function fanAhead(fouling: FoulingPosterior, from: LocalDate, days: number, steps = 8): CoursePoint[] {
  const start = from < fouling.asOf ? fouling.asOf : from;
  const a = ahead(fouling, start);
  return Array.from({ length: steps + 1 }, (_, i) => {
    const d = Math.round((days * i) / steps);
    return pointAt(a, addDays(start, d), d, 'ahead');
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
