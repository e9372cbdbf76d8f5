import type { SqueezePrices } from './squeeze/types';
import type { Prices } from './types';

/**
 * A starting point for a shop that has not set its own, US dollars of 2025, common
 * practice rather than a source: $45 an hour for a technician, $0.70 a mile at 22 mph. A kitchen is rather
 * kept waiting with two due tasks than called on twice in a week.
 */
const STARTING_PRICES: Prices = {
  drivingPerMinute: 1,
  workPerMinute: 0.75,
  overtimePerMinute: 0.6,
  latePerMinute: 1,
  overduePerDay: 4,
  leftUndone: 150,
  secondVisit: 300,
};

/**
 * The planner's prices from what the shop says an hour and a kilometre cost; the starting point for what it has not said.
 * Overtime and lateness keep their proportion to the hour.
 */
export function pricesFrom(shop: { labourPerHour: number | null; vehiclePerKm: number | null; speedKmh: number } | null): Prices {
  const minute = (shop?.labourPerHour ?? 45) / 60;
  const road = ((shop?.vehiclePerKm ?? 0.435) * (shop?.speedKmh ?? 35)) / 60;
  const scale = minute / STARTING_PRICES.workPerMinute;
  return {
    ...STARTING_PRICES,
    drivingPerMinute: minute + road,
    workPerMinute: minute,
    overtimePerMinute: STARTING_PRICES.overtimePerMinute * scale,
    latePerMinute: STARTING_PRICES.latePerMinute * scale,
  };
}

/**
 * What an emergency weighs against the visits it disturbs; common practice, not a source. Waiting an
 * hour costs as much as telling one kitchen of another time and moving it by fifty minutes.
 */
export const SQUEEZE_PRICES: SqueezePrices = { waitPerMinute: 0.5, movedVisit: 20, movedPerMinute: 0.2, rebooked: 40 };
