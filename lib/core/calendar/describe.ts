import { WEEKDAY_NAMES, fromDay } from './local-date';
import { libraryText } from './rrule-library';
import { parseRule, type ByDay, type Rule } from './rule';

const PERIOD_DAYS = {
  SECONDLY: 1 / 86400,
  MINUTELY: 1 / 1440,
  HOURLY: 1 / 24,
  DAILY: 1,
  WEEKLY: 7,
  MONTHLY: 30.436875,
  YEARLY: 365.2425,
};

/** Days from one period of the rule to the next: 42 for every sixth week. */
export const periodDays = (rule: Rule): number => PERIOD_DAYS[rule.freq] * rule.interval;

/** Mean days between two occurrences, from the shape of the rule. */
export function approximateDays(rule: Rule): number {
  const period = periodDays(rule);
  if (rule.rare) return period;
  if (rule.freq === 'WEEKLY') return period / Math.max(1, rule.byDay.length);
  if (rule.freq !== 'MONTHLY' && rule.freq !== 'YEARLY') return period;
  const months = rule.freq === 'YEARLY' ? Math.max(1, rule.byMonth.length) : 1;
  const everyWeekday = rule.byDay.length > 0 && rule.byDay.every((d) => d.nth === 0);
  const days = rule.bySetPos.length || rule.byMonthDay.length || (everyWeekday ? rule.byDay.length * 4.35 : rule.byDay.length) || 1;
  return period / (months * days);
}

/** Mean weeks between two occurrences: 6 for `FREQ=WEEKLY;INTERVAL=6`, 13.04 for every three months. */
export function approximateWeeks(rule: string): number {
  return approximateDays(parseRule(rule)) / 7;
}

const UNIT = {
  SECONDLY: 'second',
  MINUTELY: 'minute',
  HOURLY: 'hour',
  DAILY: 'day',
  WEEKLY: 'week',
  MONTHLY: 'month',
  YEARLY: 'year',
};
const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];
const NTH = ['', 'first', 'second', 'third', 'fourth', 'fifth'];

function list(items: string[]): string {
  return items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

function ordinal(n: number): string {
  const tens = n % 100;
  return `${n}${tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th')}`;
}

function numbered({ weekday, nth }: ByDay): string {
  const name = WEEKDAY_NAMES[weekday];
  if (nth === 0) return `every ${name}`;
  if (nth > 0) return `the ${NTH[nth] ?? ordinal(nth)} ${name}`;
  return nth === -1 ? `the last ${name}` : `the ${NTH[-nth] ?? ordinal(-nth)} to last ${name}`;
}

/** "every 6 weeks, on Tuesdays". Unusual rules are put in the rrule package's words. */
export function describeRule(source: string): string {
  const rule = parseRule(source);
  if (rule.rare || rule.bySetPos.length > 0 || (rule.byDay.length > 0 && rule.byMonthDay.length > 0)) return libraryText(rule);
  const unit = UNIT[rule.freq];
  let text = rule.interval === 1 ? `every ${unit}` : `every ${rule.interval} ${unit}s`;
  if (rule.byDay.length > 0) {
    const days =
      rule.byDay.some((d) => d.nth !== 0) || rule.freq === 'MONTHLY' || rule.freq === 'YEARLY'
        ? rule.byDay.map(numbered)
        : rule.byDay.map((d) => `${WEEKDAY_NAMES[d.weekday]}s`);
    text += `, on ${list(days)}`;
  }
  if (rule.byMonthDay.length > 0)
    text += `, on ${list(rule.byMonthDay.map((d) => (d === -1 ? 'the last day' : d > 0 ? `the ${ordinal(d)}` : `the ${ordinal(-d)} to last day`)))}`;
  if (rule.byMonth.length > 0) text += `, in ${list(rule.byMonth.map((m) => MONTHS[m - 1] ?? ''))}`;
  if (rule.untilDay !== undefined) text += `, until ${fromDay(rule.untilDay)}`;
  if (rule.count !== undefined) text += rule.count === 1 ? ', once' : `, ${rule.count} times`;
  return text;
}
