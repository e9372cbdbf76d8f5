import type { ReadingValues } from './entries';
import { FIELD_INFO, READING_FIELDS } from './reading-fields';

/** Two people with instruments of their own: common practice, from memory. Kelvin, share of the pressure, share of the current. */
const ALIKE_K = 1.2;
const ALIKE_PRESSURE = 0.04;
const ALIKE_AMPS = 0.1;
const LEAST_PA = 15_000;

/** Whether two readings of one unit differ by more than two instruments would, or one holds what the other lacks. */
export function readingsDiffer(a: ReadingValues, b: ReadingValues): boolean {
  return READING_FIELDS.some((field) => {
    const [x, y] = [a[field], b[field]];
    const { dimension } = FIELD_INFO[field];
    if (x === undefined && y === undefined) return false;
    if (dimension === 'minutes') return false;
    if (x === undefined || y === undefined) return true;
    const apart = Math.abs(x - y);
    if (dimension === 'temperature') return apart > ALIKE_K;
    if (dimension === 'pressure') return apart > Math.max(LEAST_PA, ALIKE_PRESSURE * Math.max(Math.abs(x), Math.abs(y)));
    return apart > ALIKE_AMPS * Math.max(x, y);
  });
}
