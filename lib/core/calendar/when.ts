/**
 * The one room in which a date or a time is written for people, by the clock of a kitchen, in the order that the shop is used to.
 * The platform's own formatter writes them: 4 µs a date, where date-fns in a named zone takes 107 µs, and a due list has hundreds.
 */
import { type Language } from '../customer-words/languages';
import { habits, type DateHabit } from '../measures/habits';
import type { LocalDate } from './local-date';

/** What the office reads in: English by either habit. */
const OFFICE: Record<DateHabit, string> = { day_first: 'en-GB', month_first: 'en-US' };

/** English as the shop's customers are used to it; Spanish is Spain's. */
const customerLocale = (language: Language): string => (language === 'en' ? habits().english : 'es-ES');

const KINDS = {
  time: { hour: '2-digit', minute: '2-digit' },
  clock: { hour: 'numeric', minute: '2-digit' },
  day: { weekday: 'short', day: 'numeric', month: 'short' },
  dayDate: { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' },
  dayOfMonth: { day: 'numeric', month: 'short' },
  longDay: { weekday: 'long', day: 'numeric', month: 'long' },
  date: { day: 'numeric', month: 'short', year: 'numeric' },
  month: { month: 'long' },
  year: { year: 'numeric' },
} as const satisfies Record<string, Intl.DateTimeFormatOptions>;

/** Making one takes longer than a screen of them does to write. */
const made = new Map<string, Intl.DateTimeFormat>();
function written(kind: keyof typeof KINDS, ms: number | Date, timeZone: string, locale = OFFICE[habits().dates]): string {
  const key = `${kind} ${timeZone} ${locale}`;
  let formatter = made.get(key);
  if (!formatter) made.set(key, (formatter = new Intl.DateTimeFormat(locale, { timeZone, ...KINDS[kind] })));
  // A narrow space before AM and PM, which not every font has.
  return formatter.format(ms).replace(/\u202f/g, ' ');
}

const midnight = (date: LocalDate | string) => Date.parse(`${date}T00:00:00Z`);

/** "09:30" or "9:30 AM" at an instant (epoch milliseconds, or a Date). */
export const timeIn = (at: number | Date, timeZone: string): string =>
  written(habits().dates === 'day_first' ? 'time' : 'clock', at, timeZone);

/** Both halves of the day are said where they differ: "8:00–9:30 AM", "11:00 AM–12:20 PM". */
const span = (from: string, to: string): string => `${from.slice(-3) === to.slice(-3) ? from.replace(/ [AP]M$/, '') : from}–${to}`;

/** "09:30–11:00" or "9:30–11:00 AM" of two instants. */
export const spanIn = (from: number | Date, to: number | Date, timeZone: string): string =>
  span(timeIn(from, timeZone), timeIn(to, timeZone));

/** "Tue 3 Nov, 09:30–11:00". */
export const momentSpanIn = (from: number | Date, to: number | Date, timeZone: string): string =>
  `${dayIn(from, timeZone)}, ${spanIn(from, to, timeZone)}`;

/** "06:00–10:30" or "6:00–10:30 AM" of two times of day as they are kept. */
export const hoursSpan = (from: string, to: string): string => span(clockWords(from), clockWords(to));

/** "06:00" or "6:00 AM" of a time of day as it is kept, "06:00"; "24:00" is the end of the day. */
export const clockWords = (kept: string): string =>
  kept === '24:00' ? (habits().dates === 'day_first' ? kept : 'midnight') : timeIn(Date.parse(`1970-01-01T${kept}:00Z`), 'UTC');

/** "Tue 3 Nov" or "Tue, Nov 3". */
export const dayIn = (at: number | Date, timeZone: string): string => written('day', at, timeZone);

/** "Tue 3 Nov, 09:30". */
export const momentIn = (at: number | Date, timeZone: string): string => `${dayIn(at, timeZone)}, ${timeIn(at, timeZone)}`;

/** "Tuesday 3 November". */
export const longDayIn = (at: number | Date, timeZone: string): string => written('longDay', at, timeZone);

/** "2026". */
export const yearIn = (at: number | Date, timeZone: string): string => written('year', at, timeZone);

/** "Tue 3 Nov" of a plain date. */
export const dayWords = (date: LocalDate | string): string => dayIn(midnight(date), 'UTC');

/** "Tue 3 Nov 2026" or "Tue, Nov 3, 2026", at an instant and of a plain date. */
export const dayDateIn = (at: number | Date, timeZone: string): string => written('dayDate', at, timeZone).replace(/^(\w+), (?=\d)/, '$1 ');
export const dayDateWords = (date: LocalDate | string): string => dayDateIn(midnight(date), 'UTC');

/** "3 Nov" or "Nov 3", with the year where it is another than today's. */
export const shortDateWords = (date: LocalDate | string, today: LocalDate | string): string =>
  written(date.slice(0, 4) === today.slice(0, 4) ? 'dayOfMonth' : 'date', midnight(date), 'UTC');

/** "3 Nov 2026" at an instant. */
export const dateIn = (at: number | Date, timeZone: string): string => written('date', at, timeZone);

/** "3 Nov 2026" of a plain date. */
export const dateWords = (date: LocalDate | string): string => written('date', midnight(date), 'UTC');

/** For customers, in the language they are written to. */
export const customerTime = (at: number | Date, timeZone: string, language: Language): string =>
  written('clock', at, timeZone, customerLocale(language));
export const customerDay = (at: number | Date, timeZone: string, language: Language): string =>
  written('longDay', at, timeZone, customerLocale(language));
export const customerDate = (date: LocalDate | string, language: Language): string =>
  written('longDay', midnight(date), 'UTC', customerLocale(language));
/** "Jan 5, 2027": where the year matters. */
export const customerFullDate = (date: LocalDate | string, language: Language): string =>
  written('date', midnight(date), 'UTC', customerLocale(language));
/** "July 2026". */
export const monthWords = (date: LocalDate | string): string =>
  `${written('month', midnight(date), 'UTC')} ${yearIn(midnight(date), 'UTC')}`;
/** "July to September 2026" of the quarter that begins on this day. */
export function customerMonths(startsOn: LocalDate | string, language: Language): string {
  const first = midnight(startsOn);
  const last = new Date(first);
  last.setUTCMonth(last.getUTCMonth() + 2);
  const month = (at: number | Date) => written('month', at, 'UTC', customerLocale(language));
  const to = language === 'es' ? 'a' : 'to';
  return `${month(first)} ${to} ${month(last)} ${language === 'es' ? 'de ' : ''}${yearIn(last, 'UTC')}`;
}
