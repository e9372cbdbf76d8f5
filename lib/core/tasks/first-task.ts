import { addDays, CalendarError, nextDue, parseRule, weekdayOf, type Anchor, type LocalDate } from '../calendar';

export type FirstTask = { rule: string; anchor: Anchor; anchorDate: LocalDate; lastDoneOn: LocalDate | null; dueOn: LocalDate };

/** A rule on one weekday is anchored on that weekday, or its first date would come a whole interval late. */
export function onItsWeekday(rule: string, date: LocalDate): LocalDate {
  const { freq, byDay } = parseRule(rule);
  const only = byDay.length === 1 ? byDay[0] : undefined;
  if (freq !== 'WEEKLY' || !only) return date;
  return addDays(date, (only.weekday - weekdayOf(date) + 7) % 7);
}

/**
 * A task as it is first put on file. With a last completed date the rule counts from there; without one it first
 * falls on `firstDue`, moved on to the rule's weekday.
 * @throws CalendarError invalid_rule, also when the rule has no date left.
 */
export function firstTask(given: {
  rule: string;
  anchor: Anchor;
  firstDue: LocalDate | null;
  lastDoneOn: LocalDate | null;
  today: LocalDate;
}): FirstTask {
  const { rule, anchor, lastDoneOn } = given;
  const anchorDate = onItsWeekday(rule, given.firstDue ?? lastDoneOn ?? given.today);
  const dueOn = nextDue({ rule, anchor, anchorDate, lastDoneOn });
  if (!dueOn) throw new CalendarError('invalid_rule', 'That rule has no date left to fall on.');
  return { rule: parseRule(rule).text, anchor, anchorDate, lastDoneOn, dueOn };
}

/**
 * Days from today to a first visit where nothing is known of the last one: between 0 and the whole interval, the same
 * for all units of a kitchen, so that a fleet put on file in one go does not fall due on one morning. FNV-1a hash.
 */
export function spreadDays(key: string, weeks: number): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < key.length; i++) hash = Math.imul(hash ^ key.charCodeAt(i), 0x01000193) >>> 0;
  return hash % Math.max(1, Math.round(weeks * 7));
}
