import { CalendarError, civilToDay, isLocalDate, isWeekday, WEEKDAY_CODES, type Weekday } from './local-date';

/** Recurrence rules as RFC 5545 §3.3.10 writes them, read strictly: an unknown part is an error, never ignored. */
export const FREQUENCIES = ['SECONDLY', 'MINUTELY', 'HOURLY', 'DAILY', 'WEEKLY', 'MONTHLY', 'YEARLY'] as const;
export type Frequency = (typeof FREQUENCIES)[number];
export type ByDay = { weekday: Weekday; nth: number };

export type Rule = {
  /** The rule as it was written, upper case, without a leading "RRULE:". */
  text: string;
  freq: Frequency;
  interval: number;
  count?: number;
  /** Last day on which it may fall, as a day number; the time of day of UNTIL is dropped. */
  untilDay?: number;
  /** nth 0 means every such weekday. */
  byDay: ByDay[];
  byMonthDay: number[];
  byMonth: number[];
  bySetPos: number[];
  byYearDay: number[];
  byWeekNo: number[];
  /** It names hours, minutes or seconds, which say nothing about days. */
  timed: boolean;
  /** It has parts that are put in the rrule package's words (BYYEARDAY, BYWEEKNO, BYHOUR …). */
  rare: boolean;
  weekStart: Weekday;
};

const fail = (message: string): never => {
  throw new CalendarError('invalid_rule', message);
};

function integers(part: string, value: string, low: number, high: number, zeroAllowed = false): number[] {
  return value.split(',').map((item) => {
    const n = /^[+-]?\d{1,3}$/.test(item) ? Number(item) : NaN;
    if (!(n >= low && n <= high) || (n === 0 && !zeroAllowed)) fail(`${part} takes whole numbers from ${low} to ${high}, not "${item}".`);
    return n;
  });
}

function weekday(part: string, code: string): Weekday {
  const at = WEEKDAY_CODES.findIndex((c) => c === code);
  return isWeekday(at) ? at : fail(`${part} takes MO, TU, WE, TH, FR, SA or SU, not "${code}".`);
}

function byDays(value: string): ByDay[] {
  return value.split(',').map((item) => {
    const m = /^([+-]?\d{1,2})?([A-Z]{2})$/.exec(item) ?? fail(`BYDAY does not understand "${item}".`);
    const nth = m[1] === undefined ? 0 : Number(m[1]);
    if (m[1] !== undefined && (nth === 0 || Math.abs(nth) > 53)) fail(`BYDAY does not understand "${item}".`);
    return { weekday: weekday('BYDAY', m[2] ?? ''), nth };
  });
}

function positive(part: string, value: string): number {
  const n = /^\d{1,6}$/.test(value) ? Number(value) : 0;
  if (n < 1) fail(`${part} must be a whole number of at least 1, not "${value}".`);
  return n;
}

function until(value: string): number {
  const m = /^(\d{4})(\d\d)(\d\d)(T\d{6}Z?)?$/.exec(value) ?? fail(`UNTIL "${value}" is not a date.`);
  return civilToDay(Number(m[1]), Number(m[2]), Number(m[3]));
}

/** Far more than any rule needs; what every date is held against must stay small. */
const MAX_LENGTH = 1000;

function read(text: string): Rule {
  if (text.length > MAX_LENGTH) fail(`A recurrence rule of more than ${MAX_LENGTH} characters is not read.`);
  const source = text
    .trim()
    .toUpperCase()
    .replace(/^RRULE:/, '');
  const parts = partsOf(source);
  if (!parts.has('FREQ')) fail('A recurrence rule needs FREQ, for instance FREQ=WEEKLY;INTERVAL=6.');
  const rule: Rule = {
    text: source,
    freq: 'WEEKLY',
    interval: 1,
    byDay: [],
    byMonthDay: [],
    byMonth: [],
    bySetPos: [],
    byYearDay: [],
    byWeekNo: [],
    timed: false,
    rare: false,
    weekStart: 0,
  };
  for (const [key, value] of parts) {
    const take = PARTS.get(key) ?? fail(`${key} is not a part of a recurrence rule.`);
    take(rule, value, key);
  }
  return checked(rule);
}

function partsOf(source: string): Map<string, string> {
  const parts = new Map<string, string>();
  for (const piece of source.split(';')) {
    const [key, value, extra] = piece.split('=');
    if (!key || !value || extra !== undefined) return fail(`"${piece}" is not a part of a recurrence rule.`);
    if (parts.has(key)) fail(`${key} is given twice.`);
    parts.set(key, value);
  }
  return parts;
}

type Take = (rule: Rule, value: string, key: string) => void;

function frequency(value: string): Frequency {
  return FREQUENCIES.find((f) => f === value) ?? fail(`FREQ does not know "${value}".`);
}

/** A time of day: checked, and then known to say nothing about days. */
const timeOfDay =
  (highest: number): Take =>
  (rule, value, key) => {
    integers(key, value, 0, highest, true);
    rule.rare = rule.timed = true;
  };

const PARTS = new Map<string, Take>([
  ['FREQ', (rule, value) => (rule.freq = frequency(value))],
  ['INTERVAL', (rule, value, key) => (rule.interval = positive(key, value))],
  ['COUNT', (rule, value, key) => (rule.count = positive(key, value))],
  ['UNTIL', (rule, value) => (rule.untilDay = until(value))],
  ['BYDAY', (rule, value) => (rule.byDay = byDays(value))],
  ['BYMONTHDAY', (rule, value, key) => (rule.byMonthDay = integers(key, value, -31, 31))],
  ['BYMONTH', (rule, value, key) => (rule.byMonth = integers(key, value, 1, 12))],
  ['BYSETPOS', (rule, value, key) => (rule.bySetPos = integers(key, value, -366, 366))],
  ['WKST', (rule, value, key) => (rule.weekStart = weekday(key, value))],
  ['BYYEARDAY', (rule, value, key) => Object.assign(rule, { byYearDay: integers(key, value, -366, 366), rare: true })],
  ['BYWEEKNO', (rule, value, key) => Object.assign(rule, { byWeekNo: integers(key, value, -53, 53), rare: true })],
  ['BYHOUR', timeOfDay(23)],
  ['BYMINUTE', timeOfDay(59)],
  ['BYSECOND', timeOfDay(59)],
]);

function checked(rule: Rule): Rule {
  if (rule.count !== undefined && rule.untilDay !== undefined) fail('COUNT and UNTIL cannot both be given.');
  if (rule.freq !== 'MONTHLY' && rule.freq !== 'YEARLY' && rule.byDay.some((d) => d.nth !== 0))
    fail('A numbered weekday such as 1FR needs FREQ=MONTHLY or FREQ=YEARLY.');
  if (rule.freq === 'WEEKLY' && rule.byMonthDay.length > 0) fail('BYMONTHDAY cannot be used with FREQ=WEEKLY.');
  if (rule.bySetPos.length > 0 && rule.byDay.length + rule.byMonthDay.length + rule.byMonth.length === 0 && !rule.rare)
    fail('BYSETPOS needs another BY part to choose from.');
  return rule;
}

// The same few dozen rules serve a whole fleet; they are immutable, so reading each once is enough.
const rulesRead = new Map<string, Rule>();

/** Reads an RFC 5545 rule, with or without "RRULE:". Throws `CalendarError` 'invalid_rule' saying what is wrong. */
export function parseRule(text: string): Rule {
  const hit = rulesRead.get(text);
  if (hit) return hit;
  const rule = read(text);
  if (rulesRead.size < 10_000) rulesRead.set(text, rule);
  return rule;
}

/** `parseRule` of what somebody types now: an end on a day that there is not is refused. One that is on file goes on as it did. */
export function typedRule(text: string): Rule {
  const rule = parseRule(text);
  const [, year, month, day] = /UNTIL=(\d{4})(\d\d)(\d\d)/.exec(rule.text) ?? [];
  if (year && !isLocalDate(`${year}-${month}-${day}`)) fail(`UNTIL=${year}${month}${day} is no day of the calendar.`);
  return rule;
}

/** `FREQ=WEEKLY;INTERVAL=6;BYDAY=TU`. `weeks` is a whole number of at least 1. */
export function weeksRule(weeks: number, preferred?: Weekday): string {
  if (!Number.isInteger(weeks) || weeks < 1) fail(`An interval must be a whole number of weeks, not ${weeks}.`);
  return `FREQ=WEEKLY;INTERVAL=${weeks}${preferred === undefined ? '' : `;BYDAY=${WEEKDAY_CODES[preferred]}`}`;
}

/** The part of a rule that ends it, `;COUNT=6` or `;UNTIL=20271231`, to be carried over to another; empty without one. */
export const endOf = (rule: string): string => (/;(?:COUNT|UNTIL)=[^;]*/.exec(parseRule(rule).text) ?? [''])[0];

/** True when the rule falls on days; rules by the hour or minute cannot be due dates. Times of day in it are left aside. */
export function isDayRule(rule: Rule): boolean {
  return rule.freq === 'DAILY' || rule.freq === 'WEEKLY' || rule.freq === 'MONTHLY' || rule.freq === 'YEARLY';
}
