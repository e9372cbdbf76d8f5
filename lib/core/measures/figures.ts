import { habits } from './habits';

/**
 * The one room in which a figure is written for people: how thousands are parted, and how money looks. English in all shops, whose
 * thousands are parted by commas. The platform's formatter is woken only for what needs it: a tablet's cold start pays for it.
 */
const LOCALE = 'en-US';

/** "1,400": rounded to a whole number. */
export function whole(x: number): string {
  const n = Math.round(x);
  return Math.abs(n) < 1000 ? String(n) : n.toLocaleString(LOCALE);
}

/** "1,400.5": to so many decimals. */
export const decimal = (x: number, decimals: number): string =>
  x.toLocaleString(LOCALE, { minimumFractionDigits: decimals, maximumFractionDigits: decimals });

/** "4.2", "1,400": a decimal below ten, where it still tells something. */
export const short = (x: number): string => (Math.abs(x) < 10 ? x.toFixed(1) : whole(x));

/** Whole cents as money is written where the shop works: "$1,240.50". */
export const money = (cents: number, currency: string): string =>
  new Intl.NumberFormat(habits().english, { style: 'currency', currency }).format(cents / 100);
