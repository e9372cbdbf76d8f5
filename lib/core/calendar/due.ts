import { CalendarError, fromDay, toDay, weekdayOfDay, type LocalDate } from './local-date';
import { expandDays } from './expand';
import { isDayRule, parseRule, type Rule } from './rule';
import { approximateDays } from './describe';

/** 'calendar': dates stay where the contract put them. 'last_completed': counted again from each completed visit. */
export type Anchor = 'calendar' | 'last_completed';

export type Plan = {
  rule: string;
  anchor: Anchor;
  /** DTSTART of the rule; for 'last_completed' it serves until the task has first been done. */
  anchorDate: LocalDate;
  lastDoneOn?: LocalDate | null;
};

/** Beyond this a rule that never falls (30 February) is taken to have no next date. */
const HORIZON_DAYS = 366 * 12;

function dayRule(text: string): Rule {
  const rule = parseRule(text);
  if (!isDayRule(rule)) throw new CalendarError('invalid_rule', `A due date cannot come from a rule by the hour: "${rule.text}".`);
  return rule;
}

function firstFrom(rule: Rule, anchorDay: number, fromDayNumber: number): number | null {
  let low = Math.max(fromDayNumber, anchorDay);
  // Look one interval ahead first: nearly always enough, and never expands twelve years of a weekly rule.
  for (let span = Math.ceil(approximateDays(rule)) + 31; low - fromDayNumber < HORIZON_DAYS; span *= 4) {
    const found = expandDays(rule, anchorDay, low, low + span);
    if (found[0] !== undefined) return found[0];
    low += span;
    if (rule.untilDay !== undefined && low > rule.untilDay) return null;
  }
  return null;
}

// With a preferred weekday the count starts on that weekday, on or before the visit, so that the next one is never
// later than the interval asks.
function reanchored(rule: Rule, done: number): number {
  const [only, second] = rule.byDay;
  if (rule.freq !== 'WEEKLY' || !only || second) return done;
  return done - ((weekdayOfDay(done) - only.weekday + 7) % 7);
}

/** First day an outstanding occurrence can fall on, given the last completed visit. */
function outstandingFrom(rule: Rule, plan: Plan): { anchorDay: number; from: number } {
  const anchorDay = toDay(plan.anchorDate);
  if (!plan.lastDoneOn) return { anchorDay, from: anchorDay };
  const done = toDay(plan.lastDoneOn);
  // A visit made early serves the occurrence it was early for: nearer than half the interval counts as done.
  const from = done + Math.max(1, Math.ceil(approximateDays(rule) / 2));
  return { anchorDay: plan.anchor === 'last_completed' ? reanchored(rule, done) : anchorDay, from };
}

/**
 * The date the task is next due, in the kitchen's own calendar; null when the rule has ended.
 * Without `after` it is the outstanding due date, which may lie in the past (overdue); with `after`, the first due date
 * strictly later than it. With 'last_completed' the rule is counted from the completed visit; if it names a weekday,
 * on the last such day within the interval: `FREQ=WEEKLY;INTERVAL=6;BYDAY=TU` done on a Thursday comes 40 days later.
 */
export function nextDue(plan: Plan & { after?: LocalDate | null }): LocalDate | null {
  const rule = dayRule(plan.rule);
  const { anchorDay, from } = outstandingFrom(rule, plan);
  const low = plan.after ? Math.max(from, toDay(plan.after) + 1) : from;
  const day = firstFrom(rule, anchorDay, low);
  return day === null ? null : fromDay(day);
}

/** Due dates in the half-open range [start, end), taking each to be done on its day. A reversed range throws. */
export function dueBetween(plan: Plan, start: LocalDate, end: LocalDate): LocalDate[] {
  const low = toDay(start);
  const high = toDay(end);
  if (high < low) throw new CalendarError('reversed_range', `The range ends (${end}) before it starts (${start}).`);
  return dueDays(plan, low, high).map(fromDay);
}

/** As `dueBetween`, in day numbers: for laying out a whole fleet. */
export function dueDays(plan: Plan, startDay: number, endDay: number): number[] {
  const rule = dayRule(plan.rule);
  const { anchorDay, from } = outstandingFrom(rule, plan);
  return expandDays(rule, anchorDay, Math.max(startDay, from), endDay);
}
