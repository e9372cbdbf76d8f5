import type { MeasureUnits } from '../measures/preferred';
import { ownText } from '../tablet/own-units';
import type { ReadingField } from './reading-fields';

export type Line = readonly [label: string, value: string];
/** `whole` is false where something in it could not be put into words. */
export type Said = { lines: Line[]; whole: boolean };
/** Whoever reads an entry: units, how a moment is told, and what an id stands for, where that is known. */
export type Reader = { units: MeasureUnits; moment: (ms: number) => string; name: (id: string) => string | undefined };
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
export const moment: Say = (v, reader) => {
  const ms = typeof v === 'string' ? Date.parse(v) : NaN;
  return Number.isNaN(ms) ? null : reader.moment(ms);
};
export const named: Say = (v, reader) => (typeof v === 'string' ? (reader.name(v) ?? 'not on file') : null);
/** A unit's name heads the entry; here it is told only that there is none. */
export const unit: Say = (v, reader) => (typeof v === 'string' ? (reader.name(v) === undefined ? 'not on file' : '') : null);
