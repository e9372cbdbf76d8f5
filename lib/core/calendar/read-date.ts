import { fromDay, isLocalDate, type LocalDate } from './local-date';

/** Which of 3/4/24 is the month. */
export const DATE_ORDERS = ['month first', 'day first'] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

const WHOLE_MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];
const MONTHS = WHOLE_MONTHS.map((name) => name.slice(0, 3));
/** Days between 1899-12-30 and 1970-01-01: how spreadsheets number days since 1900 (ECMA-376 part 1, 18.17.4.1). */
const SERIAL_AT_1970 = 25_569;
/** 1980 to 2100: other numbers are not dates. */
const SERIALS = [29_221, 73_051] as const;

const two = (n: number) => String(n).padStart(2, '0');
const year = (text: string) => (text.length <= 2 ? Number(text) + (Number(text) < 70 ? 2000 : 1900) : Number(text));
function day(y: number, m: number, d: number): LocalDate | null {
  const text = `${String(y).padStart(4, '0')}-${two(m)}-${two(d)}`;
  return isLocalDate(text) ? text : null;
}

const NO_DATE = 'no date';
const month = (name: string) => MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1;
const named = (y: string, name: string, d: number) => (month(name) ? (day(year(y), month(name), d) ?? NO_DATE) : null);

type Parts = readonly [string, string, string];
/** Ways to write a day. Null: this is none after all. */
const FORMS: readonly { form: RegExp; day: (parts: Parts, order: DateOrder) => LocalDate | typeof NO_DATE | null }[] = [
  { form: /^(\d+)(?:\.\d+)?$/, day: ([days]) => fromSerial(Number(days)) ?? NO_DATE },
  { form: /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/, day: ([y, m, d]) => day(Number(y), Number(m), Number(d)) ?? NO_DATE },
  {
    form: /^(\d{1,2})[-/.\s](\d{1,2})[-/.\s](\d{4}|\d{2})$/,
    day: ([a, b, y], order) => eitherWay(Number(a), Number(b), year(y), order) ?? NO_DATE,
  },
  { form: /^(\d{1,2})[-\s/]([a-z]{3,9})\.?,?[-\s/](\d{4}|\d{2})$/i, day: ([d, name, y]) => named(y, name, Number(d)) },
  { form: /^([a-z]{3,9})\.?\s+(\d{1,2}),?\s+(\d{4}|\d{2})$/i, day: ([name, d, y]) => named(y, name, Number(d)) },
  { form: /^([a-z]{3,9})\.?[-\s,]+(\d{4}|\d{2})$/i, day: ([name, y]) => named(y, name, 1) },
];

function fromSerial(days: number): LocalDate | null {
  return days >= SERIALS[0] && days <= SERIALS[1] ? fromDay(days - SERIAL_AT_1970) : null;
}

/** In the order given, or the other way round where only that is a date. */
function eitherWay(a: number, b: number, y: number, order: DateOrder): LocalDate | null {
  return order === 'month first' ? (day(y, a, b) ?? day(y, b, a)) : (day(y, b, a) ?? day(y, a, b));
}

/** "16. 3. 2024" and "16 / 3 / 24." as they are written without blanks. */
const closed = (text: string): string => text.replace(/(\d)\s*([-/.])\s*(?=\d)/g, '$1$2').replace(/(\d)\.$/, '$1');

/**
 * A date as sheets hold it: 2024-03-16, 3/16/24, 16.3.2024, 16-Mar-24, "Mar 16, 2024", "March 2024" (its first day) or a
 * spreadsheet's day number. Null where it cannot be told.
 */
export function readDate(source: string, order: DateOrder): LocalDate | null {
  const text = closed(source.trim())
    .replace(/[T ]\d{1,2}:\d{2}.*$/, '')
    .replace(/(\d)(st|nd|rd|th)\b/gi, '$1');
  for (const { form, day } of FORMS) {
    const m = form.exec(text);
    // The first form that fits decides; a name that is no month's leaves it to the next.
    const found = m && day([m[1] ?? '', m[2] ?? '', m[3] ?? ''], order);
    if (found !== null) return found === NO_DATE ? null : found;
  }
  return null;
}

/**
 * The order that most of a column's dates give away, the first of them where they are even; `usual` where none does. A date gives
 * it away that is one in one order only, or, with `today`, a day gone by in one of them only.
 */
export function dateOrderOf(values: readonly string[], usual: DateOrder, today?: string): DateOrder {
  const votes = values.flatMap((value) => {
    const m = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})\b/.exec(closed(value.trim()));
    if (!m) return [];
    const [a, b, y] = [Number(m[1]), Number(m[2]), year(m[3] ?? '')];
    const [month, other] = [day(y, a, b), day(y, b, a)];
    if (month === null && other === null) return [];
    if (month === null || other === null) return [month === null ? ('day first' as const) : ('month first' as const)];
    const [gone, otherGone] = today === undefined ? [true, true] : [month <= today, other <= today];
    return gone === otherGone ? [] : [gone ? ('month first' as const) : ('day first' as const)];
  });
  const months = votes.filter((v) => v === 'month first').length;
  if (2 * months === votes.length) return votes[0] ?? usual;
  return 2 * months > votes.length ? 'month first' : 'day first';
}

/** The month, from 1, that a word names in whole or by its first three or four letters: "June", "sept". 0 where it names none. */
export function monthNamed(word: string): number {
  const name = word.toLowerCase();
  return WHOLE_MONTHS.findIndex((whole) => whole === name || (name.length >= 3 && name.length <= 4 && whole.startsWith(name))) + 1;
}

/** The last first day of a month gone by: "June", "last June", "in Sept." Null where it is no month alone. */
export function lastSuchMonth(text: string, today: string): LocalDate | null {
  const m = /^(?:(?:last|in|early|mid|late)[\s-]+)*([a-z]{3,9})\.?$/i.exec(text.trim());
  const named = monthNamed(m?.[1] ?? '');
  if (named === 0) return null;
  const y = Number(today.slice(0, 4));
  const of = (inYear: number) => day(inYear, named, 1);
  const here = of(y);
  return here !== null && here <= today ? here : of(y - 1);
}

/**
 * A day as somebody typed it, where nothing says whether days or months come first: one that reads the same either way. Both
 * days where it could be two; null where it is no day at all.
 */
export function readSureDate(text: string): { day: LocalDate } | { either: readonly [LocalDate, LocalDate] } | null {
  // A month alone, or a spreadsheet's number, is no day that somebody wrote.
  if ((text.match(/\d+|[a-z]+/gi) ?? []).length < 3) return null;
  const [a, b] = [readDate(text, 'month first'), readDate(text, 'day first')];
  if (a === null || b === null) return null;
  return a === b ? { day: a } : { either: [a, b] };
}
