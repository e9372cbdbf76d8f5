import { distanceWords } from '@/lib/core/measures/region';
import { greatCircleKm } from '@/lib/core/planning/travel';
import type { Position } from '@/lib/core/position';
import type { Around } from './around';

/** How far a pin is from what is known, in a straight line: enough to see one that was put in the wrong town. */
export function fromHere(pin: Position, { shop, kitchens, distance }: Around): string {
  const near = kitchens
    .map((k) => ({ name: k.name, km: greatCircleKm(pin, k) }))
    .reduce<{ name: string; km: number } | null>((best, k) => (best && best.km <= k.km ? best : k), null);
  const parts = [
    shop ? `${distanceWords(greatCircleKm(pin, shop), distance)} from the shop` : null,
    near ? `${distanceWords(near.km, distance)} from ${near.name}, the nearest kitchen on file` : null,
  ].filter((p) => p !== null);
  return parts.length === 0 ? '' : `${parts.join('; ')}. Straight lines, no roads counted.`;
}
