import { STEADY_SCATTER_SD_K } from './instruments';
import type { Reading } from '../types';

/** Trade practice asks for 10 to 15 minutes of steady running; below ten nothing is said. */
export const SHORTEST_STEADY_MIN = 10;
/** What pull-up leaves at start, falling with this time constant; from memory. */
const START_K = 3;
const TIME_CONSTANT_MIN = 4;
/** Where nobody said how long it ran. */
const UNKNOWN_SD_K = 1.8;

/** One standard deviation of the rise from unsteady running, K. */
export function scatterSd(reading: Reading): number {
  if (reading.steadyMinutes === undefined) return Math.hypot(STEADY_SCATTER_SD_K, UNKNOWN_SD_K);
  return Math.hypot(STEADY_SCATTER_SD_K, START_K * Math.exp(-reading.steadyMinutes / TIME_CONSTANT_MIN));
}
