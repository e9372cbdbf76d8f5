import { isLocalDate, parseRule, weeksRule, isDayRule, readSureDate, CalendarError, type LocalDate } from '../calendar';
import { timeZoneMeant } from '../calendar/is-time-zone';
import { LIMITS, NAME_MAX, within, type Span } from '../equipment/limits';
import { unitsOfMeasure, type Measure } from '../measures/entry-units';
import { heldTo, possibleIn } from '../measures/possible';
import { readFigure, readMeasure } from '../measures/typed';
import { manyLines, oneLine } from '../wording/plain-text';

export type Cell<T> = { value: T } | { problem: string };

export const freeText =
  (max: number) =>
  (text: string): Cell<string> =>
    text.length > max
      ? { problem: `${text.length} characters; at most ${max} fit.` }
      : { value: (max > NAME_MAX ? manyLines : oneLine)(text).trim() };

/**
 * A number in the column's own unit, or with another of its `measure` beside it; turned to SI and held to the limits of its field.
 */
export const number =
  (span: Span, unit: string, toSi: (x: number) => number, fromSi: (x: number) => number, measure?: Measure) =>
  (text: string): Cell<number> => {
    const bare = readFigure(text);
    const read = bare === null && measure ? readMeasure(measure, text) : { figure: bare, toSi: null };
    if (!read || read.figure === null) return { problem: notANumber(unit, measure) };
    const value = (read.toSi ?? toSi)(read.figure);
    const held = heldTo(span, value);
    if (held !== null) return { value: held };
    const [lo, hi] = possibleIn(span, fromSi);
    return { problem: `Is out of range: ${lo} to ${hi} ${unit} is possible.` };
  };

/** What would be understood: the bare number, or one with another unit of the measure. */
function notANumber(unit: string, measure: Measure | undefined): string {
  const other = Object.values(measure ? unitsOfMeasure(measure) : {}).find(({ label }) => label !== unit);
  return `Is not a number. Write the bare number; the column’s name already says ${unit}.${other ? ` One with its own unit will do as well, like 3 ${other.label}.` : ''}`;
}

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
  if (/^(yes|y|true|t|1|x|on|s[ií]|[✓✔☑])$/i.test(text)) return { value: true };
  if (/^(no|n|false|f|0|off|[✗✘☐])$/i.test(text)) return { value: false };
  return { problem: 'Write yes or no; y, n, true, false, 1, 0 and x for yes will do as well.' };
}

export function date(text: string): Cell<LocalDate> {
  if (isLocalDate(text)) return { value: text };
  const read = readSureDate(text);
  if (read && 'day' in read) return { value: read.day };
  const why = read ? `Could be ${read.either[0]} or ${read.either[1]}.` : 'Is not a date.';
  return { problem: `${why} Write year-month-day, for instance 2026-03-31.` };
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
