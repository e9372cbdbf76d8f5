import { travelMinutes } from '../travel';
import type { Place, Travel } from '../types';

/** Minutes one way that stand in for a way nobody knows, with the range that holds four in five. */
export type AssumedDrive = { minutes: number; low: number; high: number; from: 'own kitchens' | 'common practice' };

/** In a town, door to door; common practice, not a source. */
const USUAL: AssumedDrive = { minutes: 25, low: 10, high: 45, from: 'common practice' };
/** Fewer places than this say little about where the next one is. */
const ENOUGH_PLACES = 6;
/** All pairs of more places than this say the same. */
const MOST_PLACES = 60;

/**
 * The drive to a kitchen whose position is not on file: the median of the ways between the kitchens that have one, with
 * their 10th and 90th percentile; before there are enough of them, what is usual in a town.
 */
export function assumedDrive(places: readonly Place[], travel: Travel): AssumedDrive {
  const some = places.slice(0, MOST_PLACES);
  if (some.length < ENOUGH_PLACES) return USUAL;
  const ways = some
    .flatMap((a, i) => some.slice(i + 1).map((b) => travelMinutes(a, b, travel)))
    .filter((minutes) => minutes !== null)
    .sort((a, b) => a - b);
  const at = (share: number) => ways[Math.round(share * (ways.length - 1))];
  const [low, minutes, high] = [at(0.1), at(0.5), at(0.9)];
  return low === undefined || minutes === undefined || high === undefined ? USUAL : { minutes, low, high, from: 'own kitchens' };
}
