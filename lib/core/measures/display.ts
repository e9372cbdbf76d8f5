import { decimal, whole } from './figures';

/** Figures as a person should read them: no digit finer than the band can tell apart. */

/**
 * Decimals worth showing for a band of this width: its half width keeps one significant digit,
 * two where that digit is a one. Negative for tens and hundreds.
 */
export function decimalsForBand(width: number): number {
  const half = Math.abs(width) / 2;
  if (!(half > 0) || !Number.isFinite(half)) return 0;
  const magnitude = Math.floor(Math.log10(half));
  const lead = half / 10 ** magnitude;
  return -magnitude + (lead < 2 ? 1 : 0);
}

function rounded(x: number, decimals: number): string {
  const step = 10 ** -decimals;
  const value = decimals > 0 ? Number(x.toFixed(Math.min(decimals, 12))) : Math.round(x / step) * step;
  const text = decimals <= 0 ? whole(value) : Math.abs(value) < 1000 ? value.toFixed(Math.min(decimals, 12)) : decimal(value, decimals);
  return Object.is(value, -0) || /^-0\.?0*$/.test(text) ? text.replace('-', '') : text.replace('-', '−');
}

function withUnit(figure: string, unit: string): string {
  return unit === '' ? figure : `${figure} ${unit}`;
}

/**
 * "12 % (8–17)": value and band, each rounded to what the band can tell apart.
 * Shows no figure at all ("can’t say") where value or band is not a number. `most`: decimals never exceeded, where finer
 * ones would mean nothing to the reader.
 */
export function formatBand(value: number, lo: number, hi: number, unit = '', most = Infinity): string {
  if (![value, lo, hi].every(Number.isFinite) || lo > hi) return 'can’t say';
  const fine = lo === hi ? decimalsFor(value) : Math.min(decimalsForBand(hi - lo), coarsest(value, lo, hi));
  const few = Math.min(most, fine);
  // A band whose ends would read alike gets one decimal more: “4 % (4–4)” says that nothing is uncertain.
  const decimals = fine > few && rounded(lo, few) === rounded(hi, few) ? few + 1 : few;
  const low = rounded(lo, decimals);
  const high = rounded(hi, decimals);
  const dash = low.startsWith('−') || high.startsWith('−') ? ' to ' : '–';
  return `${withUnit(rounded(value, decimals), unit)} (${low}${dash}${high})`;
}

/** Keeps whole numbers whole: a band of several units on a figure of tens or more shows no decimals. */
function coarsest(value: number, lo: number, hi: number): number {
  return hi - lo >= 2 && Math.max(Math.abs(value), Math.abs(lo), Math.abs(hi)) >= 10 ? 0 : Infinity;
}

function decimalsFor(value: number): number {
  const size = Math.abs(value);
  return size === 0 ? 0 : Math.max(0, 2 - Math.floor(Math.log10(size)));
}

/** "31.2 ± 0.4 °F": a reading with its expanded uncertainty. */
export function formatUncertain(value: number, uncertainty: number, unit = ''): string {
  if (!Number.isFinite(value) || !Number.isFinite(uncertainty)) return 'can’t say';
  const decimals = uncertainty > 0 ? decimalsForBand(2 * uncertainty) : decimalsFor(value);
  return withUnit(`${rounded(value, decimals)} ± ${rounded(uncertainty, decimals)}`, unit);
}

/** "161.1 psia": a figure with fixed decimals, its unit and a true minus sign. */
export function formatQuantity(value: number, decimals: number, unit = ''): string {
  return Number.isFinite(value) ? withUnit(rounded(value, decimals), unit) : 'can’t say';
}
