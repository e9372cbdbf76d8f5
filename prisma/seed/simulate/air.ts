import type { Placement } from '../../../lib/core/equipment/build';
import type { RandomStream } from '../../../lib/core/numerics/random';

/** How far below the kitchen's hot day the coil's air usually is, K: the cook line is warm before service too. */
const BELOW_HOT_DAY_K: Record<Placement, number> = {
  fryer: 6, charbroiler: 6, wok: 6, griddle: 7, bakery: 7, line: 8, back_of_house: 11, bar: 11, outdoors: 16,
}; // prettier-ignore

/** Air at the coil's face on a day of the year. Outdoors swings with the season, kitchens little. */
export function airAtCoil(placement: Placement, hotDayK: number, dayOfYear: number, random: RandomStream): number {
  const season = Math.cos((2 * Math.PI * (dayOfYear - 200)) / 365.25);
  const swing = placement === 'outdoors' ? 11 : 2.2;
  return hotDayK - BELOW_HOT_DAY_K[placement] - swing * (1 - season) * 0.5 + random.normal(0, placement === 'outdoors' ? 3.5 : 1.6);
}
