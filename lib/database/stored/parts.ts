import { z } from 'zod';
import { isLocalDate, type LocalDate } from '../../core/calendar';
import { PLACEMENTS } from '../../core/equipment/build';
import { BAND_LEVEL } from '../../core/condenser/types';

export const day = z.custom<LocalDate>((x) => typeof x === 'string' && isLocalDate(x), 'not a date');
export const placement = z.enum(PLACEMENTS);

/** Hundreds of numbers are looked at in one plain loop: zod's own list costs a hundred times as much. */
export const numbers = z.custom<number[]>((x) => Array.isArray(x) && x.every((n) => typeof n === 'number'), 'not a list of numbers');

/**
 * Hundreds of doubles as one string: their bytes, the lowest first, in base64. Written and read many times faster than their digits, in half
 * the room, and to the last bit.
 */
export function packNumbers(list: readonly number[]): string {
  const bytes = Buffer.allocUnsafe(list.length * 8);
  for (let i = 0; i < list.length; i++) bytes.writeDoubleLE(list[i] ?? NaN, i * 8);
  return bytes.toString('base64');
}

const BASE64 = /^[A-Za-z0-9+/]*={0,2}$/;
function unpackNumbers(text: string): number[] | null {
  const bytes = Buffer.from(text, 'base64');
  if (bytes.length % 8 !== 0 || !BASE64.test(text)) return null;
  const list = Array.from({ length: bytes.length / 8 }, (_, i) => bytes.readDoubleLE(i * 8));
  return list.every(Number.isFinite) ? list : null;
}

/** A list of numbers, or what `packNumbers` made of one. */
export const packedNumbers = z.unknown().transform((x, { addIssue }): number[] => {
  const list = typeof x === 'string' ? unpackNumbers(x) : numbers.safeParse(x).data;
  if (list) return list;
  addIssue('not a list of numbers');
  return [];
});

export const figure = z.object({ value: z.number(), lo: z.number(), hi: z.number(), level: z.literal(BAND_LEVEL) });
export const meanSd = z.object({ mean: z.number(), sd: z.number() });
export const band = z.object({ mean: z.number(), sd: z.number(), low: z.number(), high: z.number() });
export const limit = z.object({ name: z.string(), lnK: z.number(), sd: z.number().optional() });
