import type { Exposure, UnitHistory } from './history';
import type { Hyper } from './hyper';
import { combine, NO_MESSAGE, withoutOne, type KitchenMessage } from './pooling';
import { posterior, withKitchen, type FoulingPosterior } from './posterior';

export type FleetUnit = { history: UnitHistory; exposure: Exposure };

/** Sum of what the units of each kitchen say. */
export function kitchenMessages(
  units: Iterable<Pick<FoulingPosterior, 'exposure' | 'message'>>,
): Map<string, KitchenMessage> {
  const byKitchen = new Map<string, KitchenMessage[]>();
  for (const u of units) {
    const list = byKitchen.get(u.exposure.kitchenId);
    if (list) list.push(u.message);
    else byKitchen.set(u.exposure.kitchenId, [u.message]);
  }
  return new Map([...byKitchen].map(([id, messages]) => [id, combine(messages)]));
}

/** What a unit hears from its neighbours, given the posteriors of the others in the kitchen. */
export function kitchenWord(others: Iterable<Pick<FoulingPosterior, 'message'>>): KitchenMessage {
  return combine(Array.from(others, (o) => o.message));
}

/** Posteriors of a whole fleet, each informed by its exposure and its kitchen's other units. Same order as given. */
export function fleetPosteriors(units: readonly FleetUnit[], hyper: Hyper): FoulingPosterior[] {
  const alone = units.map((u) => posterior(u.history, u.exposure, hyper, NO_MESSAGE));
  const all = kitchenMessages(alone);
  return alone.map((p) => withKitchen(p, hyper, withoutOne(all.get(p.exposure.kitchenId) ?? p.message, p.message)));
}
