import type { Place, Travel } from './types';

/** Mean Earth radius, km (IUGG). */
const EARTH_KM = 6371.0088;

/** Great-circle distance by the haversine formula, km. Good to 0.5 % (the Earth is not a sphere). */
export function greatCircleKm(a: { lat: number; lng: number }, b: { lat: number; lng: number }): number {
  const rad = Math.PI / 180;
  const half =
    Math.sin(((b.lat - a.lat) * rad) / 2) ** 2 + Math.cos(a.lat * rad) * Math.cos(b.lat * rad) * Math.sin(((b.lng - a.lng) * rad) / 2) ** 2;
  return 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(half)));
}

/** Has the place what travel needs: a row of the matrix, coordinates on Earth, or minutes to assume? */
export function isPlaced(place: Place | null | undefined, travel: Travel): place is Place {
  if (!place) return false;
  return rowOf(place, travel) !== null || pointOf(place) !== null || place.unknown !== undefined;
}

/**
 * Whole minutes from place to place, rounded up. From the matrix where both places have a row
 * in it and the pair is filled in (not NaN); otherwise great circle × circuity at the mean
 * speed. Where one of the two is nowhere on the map, the minutes assumed for it. Null if nothing is known, or the matrix
 * says there is no way (negative or infinite).
 */
export function travelMinutes(from: Place, to: Place, travel: Travel): number | null {
  const a = rowOf(from, travel);
  const b = rowOf(to, travel);
  if (a !== null && b !== null) {
    const minutes = travel.matrix![a]![b] ?? NaN;
    if (!Number.isNaN(minutes)) return Number.isFinite(minutes) && minutes >= 0 ? wholeUp(minutes) : null;
  }
  const here = pointOf(from);
  const there = pointOf(to);
  if (!here || !there) {
    const assumed = Math.max(from.unknown?.minutes ?? -1, to.unknown?.minutes ?? -1);
    return assumed < 0 ? null : wholeUp(assumed);
  }
  return wholeUp((greatCircleKm(here, there) * travel.circuity * 60) / travel.speedKmh);
}

/** Rounded up, but not for a sliver of rounding error. */
const wholeUp = (minutes: number): number => Math.max(0, Math.ceil(minutes - 1e-9));

function rowOf(place: Place, { matrix }: Travel): number | null {
  const row = place.matrixRow;
  return matrix && row !== undefined && row !== null && Array.isArray(matrix[row]) ? row : null;
}

function pointOf({ lat, lng }: Place): { lat: number; lng: number } | null {
  const good = typeof lat === 'number' && typeof lng === 'number' && Math.abs(lat) <= 90 && Math.abs(lng) <= 180;
  return good ? { lat, lng } : null;
}
