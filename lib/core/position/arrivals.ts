import type { Position } from './read-position';

export type Fix = Position & { accuracyM: number };
/** Where tablets were on arriving: their middle, and how far half of them and four in five were from it, m. */
export type Learnt = Position & { n: number; halfWithinM: number; mostWithinM: number };

/** Fewer could be one parking place. */
export const LEAST_ARRIVALS = 3;
/** A fix worse than this says nothing about a door, m. */
export const MOST_ACCURACY_M = 200;
/** What a parked van and a large building explain, m (our own choice). */
const ANYWAY_M = 300;
const METRES_PER_DEGREE = 111_195;

const median = (xs: readonly number[]): number => {
  const sorted = [...xs].sort((a, b) => a - b);
  const at = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(at)] ?? 0) + (sorted[Math.ceil(at)] ?? 0)) / 2;
};
/** The smallest of the values that at least this share does not exceed. */
const quantile = (xs: readonly number[], share: number): number =>
  [...xs].sort((a, b) => a - b)[Math.max(0, Math.ceil(xs.length * share) - 1)] ?? 0;

export const metresBetween = (a: Position, b: Position): number => {
  const turn = ((((b.lng - a.lng + 180) % 360) + 360) % 360) - 180;
  const across = turn * Math.cos(((a.lat + b.lat) / 2) * (Math.PI / 180));
  return Math.hypot(across, b.lat - a.lat) * METRES_PER_DEGREE;
};

/**
 * The middle of several arrivals: the median north and the median east, which one wrong fix does not move. Null while there
 * are fewer than three good ones.
 */
export function learnt(fixes: readonly Fix[]): Learnt | null {
  const [first, ...more] = fixes.filter((f) => f.accuracyM <= MOST_ACCURACY_M);
  if (!first || more.length + 1 < LEAST_ARRIVALS) return null;
  const good = [first, ...more];
  // Counted from the first, so that a kitchen on the date line has no middle on the other side of the Earth.
  const east = median(good.map((f) => ((((f.lng - first.lng + 180) % 360) + 360) % 360) - 180));
  const middle = { lat: median(good.map((f) => f.lat)), lng: ((((first.lng + east + 180) % 360) + 360) % 360) - 180 };
  const away = good.map((f) => metresBetween(middle, f));
  // No finer than the tablets themselves were sure.
  const floor = median(good.map((f) => f.accuracyM)) / Math.sqrt(good.length);
  return {
    ...middle,
    n: good.length,
    halfWithinM: Math.max(floor, quantile(away, 0.5)),
    mostWithinM: Math.max(floor, quantile(away, 0.8)),
  };
}

/** Whether what was learnt contradicts the position on file: farther than parking, and than three times its own spread. */
export const disagrees = (onFile: Position, found: Learnt): boolean =>
  metresBetween(onFile, found) > Math.max(ANYWAY_M, 3 * found.mostWithinM);
