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
