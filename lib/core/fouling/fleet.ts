import type { Exposure, UnitHistory } from './history';
import type { Hyper } from './hyper';
import { combine, withoutOne, type KitchenMessage } from './pooling';
import { beforeKitchen } from './posterior';
import type { FoulingPosterior } from './summary';

export type FleetUnit = { history: UnitHistory; exposure: Exposure };

/** What a unit hears from its neighbours, given the posteriors of the others in the kitchen. */
export function kitchenWord(others: Iterable<Pick<FoulingPosterior, 'message'>>): KitchenMessage {
  return combine(Array.from(others, (o) => o.message));
}

/**
 * Posteriors of a whole fleet, each informed by its exposure and its kitchen's other units, handed to `take` kitchen by
 * kitchen with the unit's place in `units`, so that a large fleet need not be held all at once.
 */
export function eachPosterior(units: readonly FleetUnit[], hyper: Hyper, take: (p: FoulingPosterior, index: number) => void): void {
  const kitchens = new Map<string, number[]>();
  units.forEach((u, i) => {
    const list = kitchens.get(u.exposure.kitchenId);
    if (list) list.push(i);
    else kitchens.set(u.exposure.kitchenId, [i]);
  });
  for (const indices of kitchens.values()) {
    const heard = indices.map((i) => {
      const { history, exposure } = units[i] as FleetUnit;
      return beforeKitchen(history, exposure, hyper);
    });
    const all = combine(heard.map((h) => h.message));
    heard.forEach(({ whole, message }, k) => take(whole(withoutOne(all, message)), indices[k] as number));
  }
}

/** The same as an array, in the order given. */
export function fleetPosteriors(units: readonly FleetUnit[], hyper: Hyper): FoulingPosterior[] {
  const result = new Array<FoulingPosterior>(units.length);
  eachPosterior(units, hyper, (p, i) => (result[i] = p));
  return result;
}
