import { dewPressure, isFailure, REFRIGERANTS } from '../../refrigerants/api';

export function isKnownRefrigerant(id: string): boolean {
  return Object.hasOwn(REFRIGERANTS, id);
}

/** Kept away from the critical point, where a small error of pressure is a large one of everything else. */
const MARGIN_K = 4;
const ceilings = new Map<string, number>();

/** Highest condensing dew temperature that is worked with, K; NaN where the refrigerant has no numbers. */
export function dewCeilingK(id: string): number {
  const hit = ceilings.get(id);
  if (hit !== undefined) return hit;
  const served = (T: number) => !isFailure(dewPressure(id, T));
  let lo = 285;
  let hi = 450;
  if (!served(lo)) return NaN;
  while (hi - lo > 0.01) {
    const T = (lo + hi) / 2;
    if (served(T)) lo = T;
    else hi = T;
  }
  ceilings.set(id, lo - MARGIN_K);
  return lo - MARGIN_K;
}
