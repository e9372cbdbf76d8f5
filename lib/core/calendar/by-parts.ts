import { civilToDay, dayToCivil, daysInMonth, weekdayOfDay, type Weekday } from './local-date';
import type { Rule } from './rule';

/** ISO 8601 week number (RFC 5545 with a week that may start on another day), and how many weeks its year has. */
function weekOf(day: number, weekStart: Weekday): { week: number; weeks: number } {
  const start = day - ((weekdayOfDay(day) - weekStart + 7) % 7);
  // A week belongs to the year that holds its fourth day.
  const { year } = dayToCivil(start + 3);
  const first = firstWeek(year, weekStart);
  return { week: (start - first) / 7 + 1, weeks: (firstWeek(year + 1, weekStart) - first) / 7 };
}

function firstWeek(year: number, weekStart: Weekday): number {
  const fourth = civilToDay(year, 1, 4);
  return fourth - ((weekdayOfDay(fourth) - weekStart + 7) % 7);
}

/** True when `n`, counted from the front or (negative) from the back of `length`, is among `wanted`. */
const counts = (wanted: readonly number[], n: number, length: number) => wanted.includes(n) || wanted.includes(n - length - 1);

function onWeekday(rule: Rule, day: number, dayOfMonth: number, monthLength: number, yearStart: number, yearLength: number): boolean {
  const weekday = weekdayOfDay(day);
  // In a year without BYMONTH, weekdays are numbered over the year.
  const overYear = rule.freq === 'YEARLY' && rule.byMonth.length === 0;
  const n = overYear ? day - yearStart + 1 : dayOfMonth;
  const length = overYear ? yearLength : monthLength;
  const nth = Math.ceil(n / 7);
  const fromEnd = -Math.ceil((length - n + 1) / 7);
  return rule.byDay.some((b) => b.weekday === weekday && (b.nth === 0 || b.nth === nth || b.nth === fromEnd));
}

/** A test of the days of one period: whether every BY part that is given lets the day through. */
export function byParts(rule: Rule, anchorDay: number): (day: number) => boolean {
  const anchor = dayToCivil(anchorDay);
  const free = rule.byDay.length + rule.byMonthDay.length + rule.byYearDay.length + rule.byWeekNo.length === 0;
  // What the rule leaves open comes from its start.
  const byMonthDay = free && (rule.freq === 'MONTHLY' || rule.freq === 'YEARLY') ? [anchor.day] : rule.byMonthDay;
  const byMonth = free && rule.freq === 'YEARLY' && rule.byMonth.length === 0 ? [anchor.month] : rule.byMonth;
  const weekday = free && rule.freq === 'WEEKLY' ? weekdayOfDay(anchorDay) : null;
  return (number) => {
    const { year, month, day } = dayToCivil(number);
    if (byMonth.length > 0 && !byMonth.includes(month)) return false;
    const monthLength = daysInMonth(year, month);
    if (byMonthDay.length > 0 && !counts(byMonthDay, day, monthLength)) return false;
    if (weekday !== null && weekdayOfDay(number) !== weekday) return false;
    const yearStart = civilToDay(year, 1, 1);
    const yearLength = daysInMonth(year, 2) + 337;
    if (rule.byDay.length > 0 && !onWeekday(rule, number, day, monthLength, yearStart, yearLength)) return false;
    if (rule.byYearDay.length > 0 && !counts(rule.byYearDay, number - yearStart + 1, yearLength)) return false;
    if (rule.byWeekNo.length === 0) return true;
    const { week, weeks } = weekOf(number, rule.weekStart);
    return counts(rule.byWeekNo, week, weeks);
  };
}
