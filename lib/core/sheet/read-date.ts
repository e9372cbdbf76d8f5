import { fromDay, isLocalDate, type LocalDate } from '../calendar';

/** Which of 3/4/24 is the month. */
export type DateOrder = 'month first' | 'day first';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
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

/**
 * A date as sheets hold it: 2024-03-16, 3/16/24, 16.3.2024, 16-Mar-24, "Mar 16, 2024", "March 2024" (its first day) or a
 * spreadsheet's day number. Null where it cannot be told.
 */
export function readDate(source: string, order: DateOrder): LocalDate | null {
  const text = source
    .trim()
    .replace(/[T ]\d{1,2}:\d{2}.*$/, '')
    .replace(/(\d)(st|nd|rd|th)\b/gi, '$1');
  if (/^\d+(\.\d+)?$/.test(text)) {
    const serial = Math.floor(Number(text));
    if (serial < SERIALS[0] || serial > SERIALS[1]) return null;
    return fromDay(serial - SERIAL_AT_1970);
  }
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text);
  if (iso) return day(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const plain = /^(\d{1,2})[-/.\s](\d{1,2})[-/.\s](\d{4}|\d{2})$/.exec(text);
  if (plain) {
    const [a, b, y] = [Number(plain[1]), Number(plain[2]), year(plain[3] ?? '')];
    return order === 'month first' ? (day(y, a, b) ?? day(y, b, a)) : (day(y, b, a) ?? day(y, a, b));
  }
  const month = (name: string) => MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1;
  const dayFirst = /^(\d{1,2})[-\s/]([a-z]{3,9})\.?,?[-\s/](\d{4}|\d{2})$/i.exec(text);
  if (dayFirst && month(dayFirst[2] ?? '')) return day(year(dayFirst[3] ?? ''), month(dayFirst[2] ?? ''), Number(dayFirst[1]));
  const monthFirst = /^([a-z]{3,9})\.?\s+(\d{1,2}),?\s+(\d{4}|\d{2})$/i.exec(text);
  if (monthFirst && month(monthFirst[1] ?? '')) return day(year(monthFirst[3] ?? ''), month(monthFirst[1] ?? ''), Number(monthFirst[2]));
  const monthOnly = /^([a-z]{3,9})\.?[-\s,]+(\d{4}|\d{2})$/i.exec(text);
  if (monthOnly && month(monthOnly[1] ?? '')) return day(year(monthOnly[2] ?? ''), month(monthOnly[1] ?? ''), 1);
  return null;
}

/** The order that a column's own dates give away; `usual` where none does. */
export function dateOrderOf(values: readonly string[], usual: DateOrder): DateOrder {
  for (const value of values) {
    const m = /^(\d{1,2})[-/.](\d{1,2})[-/.]\d{2,4}/.exec(value.trim());
    if (!m) continue;
    if (Number(m[1]) > 12) return 'day first';
    if (Number(m[2]) > 12) return 'month first';
  }
  return usual;
}
