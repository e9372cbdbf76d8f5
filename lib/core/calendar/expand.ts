import { civilToDay, dayToCivil, daysInMonth, weekdayOfDay } from './local-date';
import { libraryDays } from './rrule-library';
import type { Rule } from './rule';

/**
 * Day numbers of a rule in [startDay, endDay), anchored (DTSTART) on anchorDay.
 * Daily, weekly and month-shaped rules are counted directly in day numbers; the rest goes to the rrule package,
 * which is also the arbiter in the tests. The anchor itself counts only if it matches the rule, as in that package.
 */
export function expandDays(rule: Rule, anchorDay: number, startDay: number, endDay: number): number[] {
  if (rule.untilDay !== undefined && rule.untilDay + 1 < endDay) endDay = rule.untilDay + 1;
  if (endDay <= startDay) return [];
  if (!rule.rare && rule.byMonth.length === 0 && rule.bySetPos.length === 0) {
    if (rule.freq === 'DAILY' && rule.byDay.length === 0 && rule.byMonthDay.length === 0)
      return everyNth(rule, anchorDay, startDay, endDay, rule.interval);
    if (rule.freq === 'WEEKLY') return weekly(rule, anchorDay, startDay, endDay);
  }
  const step = monthStep(rule);
  return step > 0 ? monthly(rule, step, anchorDay, startDay, endDay) : libraryDays(rule, anchorDay, startDay, endDay);
}

function everyNth(rule: Rule, anchorDay: number, startDay: number, endDay: number, step: number): number[] {
  const result: number[] = [];
  let n = Math.max(0, Math.ceil((startDay - anchorDay) / step));
  for (let day = anchorDay + n * step; day < endDay; day += step, n++) {
    if (rule.count !== undefined && n >= rule.count) break;
    result.push(day);
  }
  return result;
}

function weekly(rule: Rule, anchorDay: number, startDay: number, endDay: number): number[] {
  const { byDay, interval, weekStart, count } = rule;
  const sinceWeekStart = (weekdayOfDay(anchorDay) - weekStart + 7) % 7;
  if (byDay.length <= 1) {
    const target = byDay[0] === undefined ? sinceWeekStart : (byDay[0].weekday - weekStart + 7) % 7;
    const shift = target - sinceWeekStart;
    // A weekday already gone by in the anchor's own week first comes a whole interval later.
    return everyNth(rule, anchorDay + shift + (shift < 0 ? 7 * interval : 0), startDay, endDay, 7 * interval);
  }
  const offsets = [...new Set(byDay.map((d) => (d.weekday - weekStart + 7) % 7))].sort((a, b) => a - b);
  const week0 = anchorDay - sinceWeekStart;
  const period = 7 * interval;
  let week = Math.max(0, Math.floor((startDay - week0) / period));
  const inFirst = offsets.filter((o) => o >= sinceWeekStart).length;
  let n = week === 0 ? 0 : inFirst + (week - 1) * offsets.length;
  const result: number[] = [];
  for (; week0 + week * period < endDay; week++) {
    for (const offset of offsets) {
      const day = week0 + week * period + offset;
      if (day < anchorDay) continue;
      if (day >= endDay || (count !== undefined && n >= count)) return result;
      n++;
      if (day >= startDay) result.push(day);
    }
  }
  return result;
}

/** Months between candidate months, or 0 when the rule is not month-shaped. */
function monthStep(rule: Rule): number {
  if (rule.rare) return 0;
  if (rule.freq === 'MONTHLY') return rule.interval;
  // Within a year, weekdays and set positions are numbered over the year, not the month.
  if (rule.freq === 'YEARLY' && rule.byDay.length === 0 && rule.bySetPos.length === 0) {
    if (rule.byMonth.length === 0 && rule.byMonthDay.length > 0) return 0;
    return 12 * rule.interval;
  }
  return 0;
}

function monthly(rule: Rule, step: number, anchorDay: number, startDay: number, endDay: number): number[] {
  const anchor = dayToCivil(anchorDay);
  const yearly = rule.freq === 'YEARLY';
  const months = yearly ? (rule.byMonth.length > 0 ? [...new Set(rule.byMonth)].sort((a, b) => a - b) : [anchor.month]) : [0];
  const origin = yearly ? anchor.year * 12 : anchor.year * 12 + anchor.month - 1;
  const from = dayToCivil(startDay);
  let period = 0;
  // Jump straight to the window unless COUNT obliges us to count from the anchor.
  if (rule.count === undefined) period = Math.max(0, Math.floor((from.year * 12 + from.month - 1 - origin) / step));
  let n = 0;
  const result: number[] = [];
  for (; ; period++) {
    for (const m of months) {
      const index = origin + period * step + (yearly ? m - 1 : 0);
      const year = Math.floor(index / 12);
      const month = index - year * 12 + 1;
      if (civilToDay(year, month, 1) >= endDay) return result;
      if (!yearly && rule.byMonth.length > 0 && !rule.byMonth.includes(month)) continue;
      for (const day of daysOfMonth(rule, year, month, anchor.day)) {
        if (day < anchorDay) continue;
        if (day >= endDay || (rule.count !== undefined && n >= rule.count)) return result;
        n++;
        if (day >= startDay) result.push(day);
      }
    }
  }
}

function daysOfMonth(rule: Rule, year: number, month: number, anchorDayOfMonth: number): number[] {
  const length = daysInMonth(year, month);
  const first = civilToDay(year, month, 1);
  const wanted = rule.byMonthDay.length > 0 ? rule.byMonthDay : rule.byDay.length === 0 ? [anchorDayOfMonth] : null;
  let days: number[] = [];
  if (wanted && rule.byDay.length === 0) {
    for (const d of wanted) {
      const day = d > 0 ? d : length + 1 + d;
      if (day >= 1 && day <= length) days.push(first + day - 1);
    }
  } else {
    for (let d = 1; d <= length; d++) {
      if (wanted && !wanted.includes(d) && !wanted.includes(d - length - 1)) continue;
      const weekday = weekdayOfDay(first + d - 1);
      const nth = Math.ceil(d / 7);
      const fromEnd = -Math.ceil((length - d + 1) / 7);
      if (rule.byDay.some((b) => b.weekday === weekday && (b.nth === 0 || b.nth === nth || b.nth === fromEnd))) days.push(first + d - 1);
    }
  }
  days = days.length > 1 ? [...new Set(days)].sort((a, b) => a - b) : days;
  if (rule.bySetPos.length === 0) return days;
  const chosen = new Set(rule.bySetPos.map((p) => days[p > 0 ? p - 1 : days.length + p]));
  return days.filter((d) => chosen.has(d));
}
