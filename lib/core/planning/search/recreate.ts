import type { Model } from '../model/model';
import { shuffle, type Random } from '../random';
import type { ChoiceBook } from './choices';
import { bestInsertion, type Temper } from './insertion';
import { setRoute, type Solution } from './solution';

/** Nothing left to chance, for the first plan. */
const SOBER: Temper = { blink: 0, passOver: 0 };
const USUAL: Temper = { blink: 0.01, passOver: 0.1 };
const BOLD: Temper = { blink: 0.2, passOver: 0.4 };

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

/**
 * How often a recreation is bold: it may place work at a loss, up to this share of what
 * leaving it costs. Two visits to a kitchen may pay where either alone does not.
 */
const OFTEN_BOLD = 0.1;
const LOSS = 0.5;

/** Puts every job with open work where it costs least, if anywhere it costs less than leaving it. */
export function recreate(
  model: Model,
  book: ChoiceBook,
  orders: Orders,
  solution: Solution,
  candidates: number[],
  random: Random,
  sober = false,
): void {
  const bold = !sober && random() < OFTEN_BOLD;
  const temper = sober ? SOBER : bold ? BOLD : USUAL;
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
  const loss = bold ? random() * LOSS : 0;
  for (const job of candidates) {
    const { leave, all, items } = model.jobs[job]!;
    // A kitchen may need a second visit, by someone else, for what the first could not do.
    for (let visit = 0; visit < items; visit++) {
      const allowance = loss > 0 ? loss * leave.cost(all & ~solution.done[job]!) : 0;
      const found = bestInsertion(model, book, solution, job, random, temper, allowance);
      if (!found) break;
      setRoute(model, solution, found.route);
    }
  }
}
