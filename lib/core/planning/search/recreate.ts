import type { Model } from '../model/model';
import { shuffle, type Random } from '../random';
import type { ChoiceBook } from './choices';
import { bestInsertion } from './insertion';
import { setRoute, type Solution } from './solution';

/** Share of positions passed over, so that equal searches do not end in equal dead ends. */
export const BLINK = 0.01;

/** Orders in which open jobs are put back, each with its weight (as in the SISR paper, windows and urgency added). */
export interface Orders {
  readonly keys: readonly { readonly weight: number; readonly key: Float64Array | null }[];
  readonly total: number;
}

export function recreateOrders(model: Model): Orders {
  const { jobs, drive, places, shifts } = model;
  const home = shifts[0]?.startPlace ?? 0;
  const far = Float64Array.from(jobs, (job) => -drive[home * places + job.place]!);
  const long = Float64Array.from(jobs, (job) => -(job.demand + job.setup + job.minutes.reduce((a, b) => a + b, 0)));
  const open = Float64Array.from(jobs, (_, j) => {
    let sum = 0;
    for (const views of model.views) {
      const view = views[j];
      if (view) view.opens.forEach((from, w) => (sum += Math.min(1e9, view.closes[w]! - from)));
    }
    return sum;
  });
  const urgent = Float64Array.from(jobs, (job) => -job.leave.cost(job.all));
  const keys = [
    { weight: 4, key: null },
    { weight: 4, key: long },
    { weight: 2, key: far },
    { weight: 1, key: far.map((d) => -d) },
    { weight: 2, key: open },
    { weight: 2, key: urgent },
  ];
  return { keys, total: keys.reduce((sum, k) => sum + k.weight, 0) };
}

/** Puts every job with open work where it costs least, if anywhere it costs less than leaving it. */
export function recreate(
  model: Model, book: ChoiceBook, orders: Orders, solution: Solution, candidates: number[], random: Random, blink: number,
): void {
  let pick = random() * orders.total;
  let order = orders.keys[0]!;
  for (const candidate of orders.keys) {
    order = candidate;
    pick -= candidate.weight;
    if (pick < 0) break;
  }
  shuffle(random, candidates);
  const key = order.key;
  if (key) candidates.sort((a, b) => key[a]! - key[b]!);
  for (const job of candidates) {
    // A kitchen may need a second visit, by someone else, for what the first could not do.
    for (let visit = 0; visit < model.jobs[job]!.items; visit++) {
      const found = bestInsertion(model, book, solution, job, random, blink);
      if (!found) break;
      setRoute(model, solution, found.route);
    }
  }
}
