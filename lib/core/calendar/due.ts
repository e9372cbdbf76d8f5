import { CalendarError, fromDay, toDay, weekdayOfDay, type LocalDate } from './local-date';
import { expandDays } from './expand';
import { isDayRule, parseRule, type Rule } from './rule';
import { approximateDays, periodDays } from './describe';

/** 'calendar': dates stay where the contract put them. 'last_completed': counted again from each completed visit. */
export type Anchor = 'calendar' | 'last_completed';

export type Plan = {
  rule: string;
  anchor: Anchor;
  /** DTSTART of the rule; for 'last_completed' it serves until the task has first been done. */
  anchorDate: LocalDate;
  lastDoneOn?: LocalDate | null;
};

/**
 * How far ahead the next date is looked for: twelve years (29 February over a century's end comes within eight) and
 * eight periods (a leap day that comes round every seventh year). What falls later has no date that anybody plans by.
 */
const horizonDays = (rule: Rule) => Math.ceil(366 * 12 + 8 * periodDays(rule));
/** The Gregorian calendar repeats after 400 years; a COUNT that starts further back is not counted out. */
const CYCLE_DAYS = 146_097;
/** 9999-12-31, the last date that can be written. */
const LAST_DAY = 2_932_896;

function dayRule(text: string): Rule {
  const rule = parseRule(text);
  if (!isDayRule(rule)) throw new CalendarError('invalid_rule', `A due date cannot come from a rule by the hour: "${rule.text}".`);
  return rule;
}

function firstFrom(rule: Rule, anchorDay: number, fromDayNumber: number): number | null {
  let low = Math.max(fromDayNumber, anchorDay);
  if (rule.count !== undefined && low - anchorDay > CYCLE_DAYS)
    throw new CalendarError('invalid_rule', 'COUNT is counted from the first date, and that lies more than 400 years back.');
  const end = Math.min(low + horizonDays(rule), LAST_DAY, rule.untilDay ?? LAST_DAY) + 1;
  // Look one interval ahead first: nearly always enough, and never expands twelve years of a weekly rule.
  for (let span = Math.ceil(approximateDays(rule)) + 31; low < end; span *= 4) {
    const found = expandDays(rule, anchorDay, low, Math.min(low + span, end));
    if (found[0] !== undefined) return found[0];
    low += span;
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
