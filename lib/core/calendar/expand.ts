import { byParts } from './by-parts';
import { civilToDay, dayToCivil, daysInMonth, weekdayOfDay } from './local-date';
import type { Rule } from './rule';

/**
 * Day numbers of a rule in [startDay, endDay), anchored (DTSTART) on anchorDay.
 * Everything is counted in day numbers, so the work is bounded by the window (and, with COUNT, by the days since the
 * anchor), whatever the rule. The rrule package is the arbiter in the tests. The anchor itself counts only if it
 * matches the rule, as in that package.
 */
export function expandDays(rule: Rule, anchorDay: number, startDay: number, endDay: number): number[] {
  if (rule.untilDay !== undefined && rule.untilDay + 1 < endDay) endDay = rule.untilDay + 1;
  if (endDay <= startDay) return [];
  if (!rule.rare && rule.byMonth.length === 0 && rule.bySetPos.length === 0) {
    if (rule.freq === 'DAILY' && rule.byDay.length === 0 && rule.byMonthDay.length === 0)
      return everyNth(rule, anchorDay, startDay, endDay, rule.interval);
    if (rule.freq === 'WEEKLY') return weekly(rule, anchorDay, startDay, endDay);
  }
  return general(rule, anchorDay, startDay, endDay);
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

type Period = { first: number; days: number };

/** The periods of a rule by their number, the anchor's own being 0. */
function periodOf(rule: Rule, anchorDay: number): (k: number) => Period {
  const { year, month } = dayToCivil(anchorDay);
  const { interval } = rule;
  if (rule.freq === 'YEARLY')
    return (k) => {
      const first = civilToDay(year + k * interval, 1, 1);
      return { first, days: civilToDay(year + k * interval + 1, 1, 1) - first };
    };
  if (rule.freq === 'MONTHLY')
    return (k) => {
      const index = year * 12 + month - 1 + k * interval;
      const y = Math.floor(index / 12);
      return { first: civilToDay(y, index - y * 12 + 1, 1), days: daysInMonth(y, index - y * 12 + 1) };
    };
  if (rule.freq === 'WEEKLY') {
    const week0 = anchorDay - ((weekdayOfDay(anchorDay) - rule.weekStart + 7) % 7);
    return (k) => ({ first: week0 + 7 * k * interval, days: 7 });
  }
  return (k) => ({ first: anchorDay + k * interval, days: 1 });
}

/** Number of the last period that starts on or before `day`, by halving: the periods come in order. */
function periodAt(period: (k: number) => Period, day: number): number {
  let low = 0;
  let high = 1;
  while (period(high).first <= day) high *= 2;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (period(middle).first <= day) low = middle;
    else high = middle;
  }
  return low;
}

/** Any rule of days: each period's days that its BY parts let through, BYSETPOS choosing among them. */
function general(rule: Rule, anchorDay: number, startDay: number, endDay: number): number[] {
  const period = periodOf(rule, anchorDay);
  const fits = byParts(rule, anchorDay);
  // COUNT is counted from the anchor; without it the window is all there is to look at.
  let k = rule.count === undefined ? periodAt(period, startDay) : 0;
  let n = 0;
  const result: number[] = [];
  for (let p = period(k); p.first < endDay; p = period(++k)) {
    let days: number[] = [];
    for (let day = p.first; day < p.first + p.days; day++) if (fits(day)) days.push(day);
    if (rule.bySetPos.length > 0) {
      const found = days;
      days = found.filter((_, i) => rule.bySetPos.includes(i + 1) || rule.bySetPos.includes(i - found.length));
    }
    for (const day of days) {
      if (day < anchorDay) continue;
      if (day >= endDay || (rule.count !== undefined && n >= rule.count)) return result;
      n++;
      if (day >= startDay) result.push(day);
    }
  }
  return result;
}
