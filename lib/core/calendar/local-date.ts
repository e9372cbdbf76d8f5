/**
 * Dates of a kitchen, without a time and without a zone: 'YYYY-MM-DD' in the proleptic Gregorian calendar.
 * All arithmetic runs on day numbers (days since 1970-01-01), so the zone of the machine never enters.
 */
declare const localDateBrand: unique symbol;
export type LocalDate = string & { readonly [localDateBrand]: true };

/** 0 = Monday … 6 = Sunday, as ISO 8601 orders them. */
export const WEEKDAYS = [0, 1, 2, 3, 4, 5, 6] as const;
export type Weekday = (typeof WEEKDAYS)[number];
export const isWeekday = (n: unknown): n is Weekday => WEEKDAYS.some((w) => w === n);
export const WEEKDAY_CODES = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'] as const;
export const WEEKDAY_NAMES = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

export class CalendarError extends Error {
  constructor(
    readonly code: 'invalid_date' | 'invalid_time' | 'invalid_zone' | 'invalid_rule' | 'reversed_range',
    message: string,
  ) {
    super(message);
    this.name = 'CalendarError';
  }
}

/** Day number of a civil date; algorithm of H. Hinnant, "chrono-Compatible Low-Level Date Algorithms". Month 1–12. */
export function civilToDay(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

export type Civil = { year: number; month: number; day: number };

export function dayToCivil(dayNumber: number): Civil {
  const z = dayNumber + 719468;
  const era = Math.floor(z / 146097);
  const dayOfEra = z - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const mp = Math.floor((5 * dayOfYear + 2) / 153);
  const month = mp < 10 ? mp + 3 : mp - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * mp + 2) / 5) + 1,
  };
}

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

// Formatting dominates when a year of a whole fleet is laid out, and the same few thousand days come again and again.
const written = new Map<number, LocalDate>();

export function fromDay(dayNumber: number): LocalDate {
  const hit = written.get(dayNumber);
  if (hit !== undefined) return hit;
  const { year, month, day } = dayToCivil(dayNumber);
  if (year < 0 || year > 9999) throw new CalendarError('invalid_date', `No date can be written for the year ${year}.`);
  const text = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  const date = localDate(text);
  if (written.size < 100_000) written.set(dayNumber, date);
  return date;
}

export function isLocalDate(text: string): text is LocalDate {
  const m = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (!m) return false;
  const [year, month, day] = [Number(m[1]), Number(m[2]), Number(m[3])];
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
}

/** Reads 'YYYY-MM-DD'; a date that does not exist throws `invalid_date`. */
export function localDate(text: string): LocalDate {
  if (!isLocalDate(text)) throw new CalendarError('invalid_date', `"${text}" is not a date of the form YYYY-MM-DD.`);
  return text;
}

function digit(text: string, at: number): number {
  return text.charCodeAt(at) - 48;
}

/** Days since 1970-01-01. */
export function toDay(date: LocalDate): number {
  const year = digit(date, 0) * 1000 + digit(date, 1) * 100 + digit(date, 2) * 10 + digit(date, 3);
  return civilToDay(year, digit(date, 5) * 10 + digit(date, 6), digit(date, 8) * 10 + digit(date, 9));
}

export function addDays(date: LocalDate, days: number): LocalDate {
  return fromDay(toDay(date) + days);
}

/** Whole days from `from` to `to`; negative when `to` is earlier. */
export function daysBetween(from: LocalDate, to: LocalDate): number {
  return toDay(to) - toDay(from);
}

export function weekdayOfDay(dayNumber: number): Weekday {
  return WEEKDAYS[(((dayNumber + 3) % 7) + 7) % 7] ?? 0;
}

export function weekdayOf(date: LocalDate): Weekday {
  return weekdayOfDay(toDay(date));
}

/** So many months on: the same day of the month, or the month's last where that is sooner. */
export function addMonths(date: LocalDate, months: number): LocalDate {
  const { year, month, day } = dayToCivil(toDay(date));
  const index = year * 12 + (month - 1) + months;
  const [y, m] = [Math.floor(index / 12), (index % 12) + 1];
  return fromDay(civilToDay(y, m, Math.min(day, daysInMonth(y, m))));
}
