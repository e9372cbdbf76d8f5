import type { Model } from '../model/model';
import { seededRandom } from '../random';
import { choiceBook } from './choices';
import { recreate, recreateOrders } from './recreate';
import { neighbours, ruin } from './ruin';
import { copyOf, costOf, nothingDone, type Solution } from './solution';

export interface SearchOptions {
  readonly seed: number;
  /** Ruin-and-recreate rounds. The result depends on the seed and this alone, unless rounds are skipped. */
  readonly iterations: number;
  /** Share of the time that is used up, 0 to 1. Where it runs ahead of the rounds, rounds are skipped to cool down in time. */
  readonly pace?: () => number;
  readonly onSkipped?: () => void;
  readonly start?: Solution;
  readonly onImprovement?: (solution: Solution, iteration: number) => void;
  /** Sees every plan the search tries that is not far from the best. */
  readonly onTried?: (solution: Solution) => void;
}

/** How often the search looks up to see whether it should stop, in rounds. */
const LOOK_UP_EVERY = 16;
/** How near the best a plan's cost must be to be of interest. */
const NEAR = 1.04;

/**
 * Simulated annealing over ruin and recreate. A generator: every few rounds it hands out
 * the best plan so far, so that the caller can stop it, yield to other work, or show
 * progress. It is never itself aware of a clock.
 */
export function* anneal(model: Model, options: SearchOptions): Generator<Solution, Solution, void> {
  const random = seededRandom(options.seed);
  const near = neighbours(model);
  const book = choiceBook(model);
  const orders = recreateOrders(model);
  let current = options.start ? copyOf(options.start) : nothingDone(model);
  const open = (solution: Solution): number[] => model.jobs.flatMap((job, j) => ((job.all & ~solution.done[j]!) !== 0 ? [j] : []));
  recreate(model, book, orders, current, open(current), random, true);
  let best = copyOf(current);
  options.onImprovement?.(best, 0);
  yield best;
  if (model.jobs.length === 0) return best;
  const { hot, cold } = temperatures(current);
  let temperature = hot;
  const cooling = (cold / hot) ** (1 / Math.max(1, options.iterations));
  for (let i = 1; i <= options.iterations; i++) {
    if (i % LOOK_UP_EVERY === 0) {
      yield best;
      const due = roundsDue(options);
      if (due > i) {
        options.onSkipped?.();
        temperature = hot * cooling ** due;
        i = due;
      }
    }
    const next = copyOf(current);
    const removed = ruin(model, near, next, random);
    const candidates = new Set(removed);
    for (const job of open(next)) candidates.add(job);
    recreate(model, book, orders, next, [...candidates], random);
    if (next.cost < best.cost * NEAR) options.onTried?.(next);
    if (next.cost < current.cost - temperature * Math.log(random())) {
      if (isBetter(model, next, best)) {
        best = copyOf(next);
        options.onImprovement?.(best, i);
      }
      current = next;
    }
    temperature *= cooling;
  }
  return best;
}

/** Reckoned anew where it seems better: sums kept step by step drift. */
function isBetter(model: Model, next: Solution, best: Solution): boolean {
  if (!(next.cost < best.cost - 1e-6)) return false;
  next.cost = costOf(model, next);
  return next.cost < best.cost - 1e-6;
}

/** Rounds that should be over by now, going by the share of time that is used up. */
const roundsDue = ({ pace, iterations }: SearchOptions): number => (pace ? Math.floor(pace() * iterations) : 0);

/** Start and end temperatures from the size of a typical leg, as the published 100 and 1 are to theirs. */
function temperatures(solution: Solution): { hot: number; cold: number } {
  let legs = 0;
  let driven = 0;
  for (const route of solution.routes) {
    if (route.jobs.length === 0) continue;
    legs += route.jobs.length + 1;
    driven += route.drive;
  }
  const leg = legs > 0 && driven > 0 ? driven / legs : 1;
  return { hot: leg, cold: leg / 100 };
}
