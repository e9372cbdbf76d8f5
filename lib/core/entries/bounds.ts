import type { ReadingValues } from './entries';
import { READING_FIELDS, readingSpan, type ReadingField } from './reading-fields';
import { toOwn, unitOf, type OwnUnits } from '../tablet/own-units';

export function canBeFiled(field: ReadingField, si: number): boolean {
  const [lowest, highest] = readingSpan(field);
  return si >= lowest && si <= highest;
}

/** Fields of a reading that would have the whole of it refused. */
export const fieldsOutside = (values: ReadingValues): ReadingField[] =>
  READING_FIELDS.filter((f) => {
    const si = values[f];
    return si !== undefined && !canBeFiled(f, si);
  });

/** "−99 to 260 °F": what can be filed, in whole numbers that all can. */
export function spanWords(field: ReadingField, own: OwnUnits): string {
  const [lowest, highest] = readingSpan(field);
  const whole = (n: number) => String(n).replace('-', '−');
  return `${whole(Math.ceil(toOwn(field, lowest, own)))} to ${whole(Math.floor(toOwn(field, highest, own)))} ${unitOf(field, own)}`;
}

/** Pieces of one part used. */
export const MOST_OF_A_PART = 10_000;
