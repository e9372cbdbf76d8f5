import { metresBetween } from './arrivals';
import type { Position } from './read-position';

/** What a place-finding service says an answer is: a door, a street, or only a part of a town or more. */
export const PRECISIONS = ['house', 'street', 'area'] as const;
export type Precision = (typeof PRECISIONS)[number];

/** A place that an address may mean, as the service told it. */
export type Candidate = Position & {
  label: string;
  precision: Precision;
  /** The number of the house, where the service named one. */
  houseNumber: string;
  /** Half the way across what the service calls the place, m; null where it does not say. */
  withinM: number | null;
};

/** How far the first of them can be trusted: taken with others at once, looked at one by one, or not good enough to take. */
export type Confidence = 'fits' | 'look' | 'rough';
export type Judged = { confidence: Confidence; message: string };

/** Places farther apart than this are not the same door (our own choice: a long block of a North American street). */
const APART_M = 250;
/** A number is looked for at either end of the street's name, not in a postcode (five digits at the end) or a suite's number. */
const STREET_NUMBER =
  /(?:^|,)\s*(\d{1,6}[a-z]?)\b|(?<![^\s,])(?!(?:suite|ste|apt|unit|floor|room|rm|bldg)\b)[^\d\s,]+\s+(\d{1,4}[a-z]?)\s*(?:,|$)/i;

/** "3821" of "3821 Alder Street, Alder Mesa"; '' where none is to be seen. */
export function houseNumberOf(address: string): string {
  const found = STREET_NUMBER.exec(address);
  return (found?.[1] ?? found?.[2] ?? '').toLowerCase();
}

/**
 * What the first candidate is worth. The words are what was found, never a percentage: the service's own figures of
 * importance say how well known a place is, not how sure it is.
 */
export function judge(address: string, candidates: readonly Candidate[]): Judged {
  const [best, ...rest] = candidates;
  if (!best) return { confidence: 'rough', message: 'No place was found.' };
  if (best.precision === 'area') return { confidence: 'rough', message: 'Only the part of town was found.' };
  if (best.precision === 'street') return { confidence: 'look', message: 'The street was found, not the house.' };
  const others = rest.filter((c) => c.precision === 'house' && metresBetween(best, c) > APART_M).length;
  if (others > 0) return { confidence: 'look', message: `${others === 1 ? 'Another place fits' : `${others} other places fit`} as well.` };
  const asked = houseNumberOf(address);
  if (asked === '') return { confidence: 'look', message: 'A place of this name; the address has no house number.' };
  if (best.houseNumber.toLowerCase() !== asked)
    return {
      confidence: 'look',
      message: best.houseNumber ? `House ${best.houseNumber} was found, not ${asked}.` : 'The house number is not known there.',
    };
  return { confidence: 'fits', message: 'The house number fits, and no other place does.' };
}
