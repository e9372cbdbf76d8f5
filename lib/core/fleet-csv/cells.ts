import { isLocalDate, parseRule, weeksRule, isDayRule, CalendarError, type LocalDate } from '../calendar';
import { timeZoneMeant } from '../calendar/is-time-zone';
import { LIMITS, NAME_MAX, within, type Span } from '../equipment/limits';
import { manyLines, oneLine } from '../wording/plain-text';

export type Cell<T> = { value: T } | { problem: string };

export const freeText =
  (max: number) =>
  (text: string): Cell<string> =>
    text.length > max
      ? { problem: `${text.length} characters; at most ${max} fit.` }
      : { value: (max > NAME_MAX ? manyLines : oneLine)(text).trim() };

/** A bare number with a decimal point, turned to SI and held to the limits of its field. */
export const number =
  (span: Span, unit: string, toSi: (x: number) => number, fromSi: (x: number) => number) =>
  (text: string): Cell<number> => {
    const plain = text.replace('−', '-').replace(/\s/g, '');
    if (/^-?\d+,\d+$/.test(plain)) return { problem: 'Has a comma. Write decimals with a point and thousands without a mark.' };
    if (!/^-?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain))
      return { problem: `Is not a number. Write the bare number; the column’s name already says ${unit}.` };
    const value = toSi(Number(plain));
    if (within(span, value)) return { value };
    const [lo, hi] = span;
    const show = (x: number) => String(Number(fromSi(x).toPrecision(3)));
    return { problem: `Is out of range: ${show(lo)} to ${show(hi)} ${unit} is possible.` };
  };

const plain = (s: string) => s.toLowerCase().replace(/[^a-z0-9]/g, '');

/** One of a list, by its key or by its label, whatever the case and the dashes. */
export const oneOf =
  <T extends string>(keys: readonly T[], labels: Readonly<Record<T, string>>) =>
  (text: string): Cell<T> => {
    const asked = plain(text);
    const found = keys.find((k) => plain(k) === asked || plain(labels[k]) === asked);
    return found ? { value: found } : { problem: `Is not one of: ${keys.join(', ')}.` };
  };

export function yesNo(text: string): Cell<boolean> {
  if (/^(yes|y|true|1|x)$/i.test(text)) return { value: true };
  if (/^(no|n|false|0)$/i.test(text)) return { value: false };
  return { problem: 'Write yes or no.' };
}

export function date(text: string): Cell<LocalDate> {
  return isLocalDate(text) ? { value: text } : { problem: 'Is not a date. Write year-month-day, for instance 2026-03-31.' };
}

export function timeZone(text: string): Cell<string> {
  const zone = timeZoneMeant(text);
  return zone ? { value: zone } : { problem: 'Is not a time zone. Write it like America/Chicago.' };
}

export function email(text: string): Cell<string> {
  return /^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(text) && text.length <= 200 ? { value: text } : { problem: 'Is not an e-mail address.' };
}

/** Whole weeks, an RFC 5545 rule, or "none". */
export function rule(text: string): Cell<string> {
  if (/^none$/i.test(text)) return { value: 'none' };
  if (/^\d+$/.test(text)) {
    const weeks = Number(text);
    return within(LIMITS.weeks, weeks)
      ? { value: weeksRule(weeks) }
      : { problem: `Weeks run from ${LIMITS.weeks[0]} to ${LIMITS.weeks[1]}.` };
  }
  try {
    const parsed = parseRule(text);
    return isDayRule(parsed) && !parsed.timed ? { value: parsed.text } : { problem: 'A task cannot come round by the hour.' };
  } catch (e) {
    if (e instanceof CalendarError) return { problem: `${e.message} Whole weeks will do as well, for instance 6.` };
    throw e;
  }
}
