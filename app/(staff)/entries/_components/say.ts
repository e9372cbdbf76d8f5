import { ownText, type ReadingField } from '@/lib/core/tablet';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { dayIn, timeIn } from '@/lib/core/calendar/when';

export type Line = readonly [label: string, value: string];
/** `whole` is false where something in it could not be put into words. */
export type Said = { lines: Line[]; whole: boolean };
export type Reader = { units: MeasureUnits; timeZone: string; names: Record<string, string> };
export type Payload = Record<string, unknown>;

/** A value in words: '' where there is nothing to tell, null where there are no words for it. */
export type Say = (value: unknown, reader: Reader, payload: Payload) => string | Said | null;

export const isRecord = (v: unknown): v is Payload => typeof v === 'object' && v !== null && !Array.isArray(v);
export const ownUnits = (u: MeasureUnits) => ({ temperatureUnit: u.temperature, pressureUnit: u.pressure });

export const text: Say = (v) => (typeof v === 'string' ? v.trim() : null);
export const amount: Say = (v) => (typeof v === 'number' ? String(v).replace('-', '−') : null);
/** The tablet's own, which nobody typed. */
export const nothing: Say = () => '';
/** A word of a list; any other is told as it came. */
export const oneOf =
  (labels: Record<string, string>): Say =>
  (v) =>
    typeof v !== 'string' ? null : Object.hasOwn(labels, v) ? (labels[v] as string) : v;
export const measured =
  (field: ReadingField): Say =>
  (v, { units }) =>
    typeof v === 'number' ? ownText(field, v, ownUnits(units)) : null;
export const moment: Say = (v, { timeZone }) => {
  const ms = typeof v === 'string' ? Date.parse(v) : NaN;
  return Number.isNaN(ms) ? null : `${dayIn(ms, timeZone)} ${timeIn(ms, timeZone)}`;
};
const nameOf = (v: string, { names }: Reader): string | undefined => names[v.toLowerCase()];
export const named: Say = (v, reader) => (typeof v === 'string' ? (nameOf(v, reader) ?? 'not on file') : null);
/** A unit's name heads the entry; here it is told only that there is none. */
export const unit: Say = (v, reader) => (typeof v === 'string' ? (nameOf(v, reader) === undefined ? 'not on file' : '') : null);
