import { addDays, approximateWeeks, endOf, nextDue, weeksRule, type Anchor, type LocalDate, type Weekday } from '../calendar';
import type { Bounds, IntervalTask, UnitPolicy } from './policy';

/** Which rail decided, for the screen and the record. */
export type Guard =
  | 'no_evidence'
  | 'severe'
  | 'loosen_limit'
  | 'loosen_step_below_week'
  | 'needs_clean_findings'
  | 'dead_band'
  | 'minimum'
  | 'maximum'
  | 'warranty'
  | 'contract'
  | 'calendar'
  | 'locked';

export type Move = { weeks: number; guard: Guard | null };

export type Situation = {
  currentWeeks: number;
  /** Weeks the evidence alone would ask for; Infinity when nothing limits them. */
  wantedWeeks: number;
  severe: boolean;
  /** Clean findings running, up to now. */
  cleanRunning: number;
};

/** The widest and narrowest interval allowed, and who says so. */
export function allowed(task: IntervalTask, policy: UnitPolicy, bounds: Bounds): { min: number; max: number; maxGuard: Guard } {
  const own = policy.maxWeeks[task];
  const asked = bounds.maxWeeks ?? Infinity;
  const max = Math.max(1, Math.floor(Math.min(own, asked)));
  const min = Math.min(max, Math.max(1, Math.ceil(bounds.minWeeks ?? policy.minWeeks)));
  return { min, max, maxGuard: asked <= own ? (bounds.maxReason ?? 'contract') : 'maximum' };
}

/** From what the evidence wants to what the rails let through, in whole weeks; `s.currentWeeks` itself when nothing moves. */
export function railed(s: Situation, task: IntervalTask, policy: UnitPolicy, bounds: Bounds): Move {
  const { min, max, maxGuard } = allowed(task, policy, bounds);
  const wanted = Math.max(1, Math.floor(Math.min(s.wantedWeeks, 1e6)));
  const cap = (weeks: number, floor: number, guard: Guard | null): Move => {
    if (weeks > max) return { weeks: max, guard: maxGuard };
    return weeks < floor ? { weeks: floor, guard: 'minimum' } : { weeks, guard };
  };
  if (s.severe) {
    // Whatever else explains it: bad news never makes an interval longer.
    const move = cap(wanted, min, 'severe');
    return move.weeks < s.currentWeeks ? move : { weeks: s.currentWeeks, guard: move.guard ?? 'severe' };
  }
  // The evidence may ask for less than whoever set the longest: then it is the evidence that says so.
  if (s.currentWeeks > max) return wanted < max ? cap(wanted, min, null) : { weeks: max, guard: maxGuard };
  const goal = cap(wanted, Math.min(max, Math.max(min, policy.minWeeksUnlessSevere)), null);
  if (goal.weeks < s.currentWeeks) {
    const small = s.currentWeeks - goal.weeks < Math.max(1, policy.deadBand * s.currentWeeks);
    return small ? { weeks: s.currentWeeks, guard: 'dead_band' } : goal;
  }
  return loosened(s, goal, policy);
}

function loosened(s: Situation, goal: Move, policy: UnitPolicy): Move {
  const stay = (guard: Guard | null): Move => ({ weeks: s.currentWeeks, guard });
  if (goal.weeks - s.currentWeeks < Math.max(1, policy.deadBand * s.currentWeeks))
    return stay(goal.guard ?? (goal.weeks > s.currentWeeks ? 'dead_band' : null));
  const earned = Math.floor(s.cleanRunning / Math.max(1, policy.cleanFindings));
  if (earned < 1) return stay('needs_clean_findings');
  let step = Math.floor(s.currentWeeks * policy.loosenFactor + 1e-9);
  if (step <= s.currentWeeks) {
    // A quarter of a short interval is less than a week: each further run of clean findings earns the factor again,
    // until together they make one whole week.
    step = Math.floor(s.currentWeeks) + 1;
    if (s.currentWeeks * policy.loosenFactor ** earned < step - 1e-9) return stay('loosen_step_below_week');
  }
  return step < goal.weeks ? { weeks: step, guard: 'loosen_limit' } : goal;
}

export type Timing = {
  currentRule: string;
  anchor: Anchor;
  /** DTSTART of a calendar rule; the completed visit serves where it is left out. */
  anchorDate?: LocalDate;
  lastDoneOn: LocalDate;
  preferredWeekday?: Weekday | null;
};

/** Of what is asked of a rule, what its dates go by. */
export const timingOf = ({ currentRule, anchor, anchorDate, lastDoneOn, preferredWeekday }: Timing): Timing => ({
  currentRule,
  anchor,
  lastDoneOn,
  ...(anchorDate ? { anchorDate } : {}),
  preferredWeekday: preferredWeekday ?? null,
});

export const currentWeeks = (t: Timing): number => approximateWeeks(t.currentRule);

/** A rule of so many weeks in place of the present one, which ends when that did. */
export function ruleFor(weeks: number, t: Timing): string {
  return weeks === currentWeeks(t) ? t.currentRule : weeksRule(weeks, t.preferredWeekday ?? undefined) + endOf(t.currentRule);
}

/** Due date under a rule, counted from the completed visit; null when that rule has ended. */
export const dateUnder = (rule: string, t: Timing): LocalDate | null =>
  nextDue({ rule, anchor: t.anchor, anchorDate: t.anchorDate ?? t.lastDoneOn, lastDoneOn: t.lastDoneOn });

/** The same; a year on when a rule has ended. */
export const dueUnder = (rule: string, t: Timing): LocalDate => dateUnder(rule, t) ?? addDays(t.lastDoneOn, 365);
