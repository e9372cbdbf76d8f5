import type { SqueezePrices } from './squeeze/types';
import type { Prices } from './types';

/**
 * A starting point for a shop that has not set its own, US dollars of 2025, common
 * practice rather than a source: $45 an hour for a technician, $0.70 a mile at 22 mph.
 */
export const STARTING_PRICES: Prices = {
  drivingPerMinute: 1,
  workPerMinute: 0.75,
  overtimePerMinute: 0.6,
  latePerMinute: 1,
  overduePerDay: 4,
  leftUndone: 150,
};

/**
 * What an emergency weighs against the visits it disturbs; common practice, not a source. Waiting an
 * hour costs as much as telling one kitchen of another time and moving it by fifty minutes.
 */
export const SQUEEZE_PRICES: SqueezePrices = { waitPerMinute: 0.5, movedVisit: 20, movedPerMinute: 0.2, rebooked: 40 };
