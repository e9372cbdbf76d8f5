import { columnsOf, generateColumns, type DualBound } from './bound/column-generation';
import type { LpSolver } from './bound/lp';
import { openMaster } from './bound/master';
import { nearMemory } from './bound/memory';
import { proveOptimal } from './bound/prove';
import type { Model } from './model/model';
import { anneal } from './search/anneal';
import { routePool } from './search/route-pool';
import { neighbours } from './search/ruin';
import type { Solution } from './search/solution';

export interface ModelSolveOptions {
  readonly seed: number;
  readonly iterations: number;
  /** Without a solver there is a plan but no bound beyond `floor`. */
  readonly lp?: LpSolver;
  /** Milliseconds left; the only clock the solver knows. */
  readonly remainingMs: () => number;
  /** A bound known beforehand. */
  readonly floor: number;
  readonly onImprovement?: (solution: Solution) => void;
}

export interface SolvedModel {
  readonly solution: Solution;
  /** No plan costs less. */
  readonly bound: number;
  readonly proven: boolean;
  /** False when time ran out before the search had done its rounds. */
  readonly searched: boolean;
}

const POOL = 3000;
const MOST_LABELS = 2_000_000;
const MOST_PARTIALS = 400_000;
const MOST_COLUMNS = 60_000;
/** Share of the time that the search may use when a bound is asked for as well. */
const SEARCH_SHARE = 0.5;

/**
 * Search, then bound, then proof. A generator that hands back control every few
 * milliseconds (longer while a linear program runs), so that it can be stopped at any
 * yield; whatever it holds open is closed when it is abandoned with `return()`.
 */
export function* solveModel(model: Model, options: ModelSolveOptions): Generator<void, SolvedModel, void> {
  const pool = routePool(model, POOL);
  const search = anneal(model, {
    seed: options.seed, iterations: options.iterations, onImprovement: options.onImprovement, onAccepted: (solution) => pool.collect(solution),
  });
  const stopAt = options.lp ? options.remainingMs() * (1 - SEARCH_SHARE) : 0;
  let step = search.next();
  while (!step.done && options.remainingMs() > stopAt) {
    yield;
    step = search.next();
  }
  const searched = step.done === true;
  let solution = step.value;
  const closed = (bound: number): boolean => bound > solution.cost - (model.wholeCosts ? 1 - 1e-6 : 1e-6 * Math.max(1, Math.abs(solution.cost)));
  if (!options.lp || model.jobs.length === 0 || closed(options.floor)) return settle(options.floor);

  const near = neighbours(model);
  const master = openMaster(model, options.lp);
  let dual: DualBound;
  try {
    master.add(columnsOf(model, solution));
    master.add(pool.routes().map(({ shift, jobs, sets, cost }) => ({ shift, jobs, sets, cost })));
    // Remembering everything is affordable for a few dozen jobs; beyond that the nearest ten do.
    const memory = nearMemory(model, near, model.jobs.length <= 31 ? model.jobs.length : 10);
    const generation = generateColumns(model, master, memory, MOST_LABELS);
    let round = generation.next();
    while (!round.done && options.remainingMs() > 0) {
      yield;
      round = generation.next();
    }
    dual = round.value;
  } finally {
    master.close();
  }
  if (closed(dual.bound) || !dual.converged || options.remainingMs() <= 0) return settle(Math.max(options.floor, dual.bound));
  const proof = proveOptimal(model, options.lp, dual, solution, {
    mostPartials: MOST_PARTIALS, mostColumns: MOST_COLUMNS, remainingMs: options.remainingMs,
  });
  let round = proof.next();
  while (!round.done && options.remainingMs() > 0) {
    yield;
    round = proof.next();
  }
  if (!round.done) {
    proof.return(null);
    return settle(Math.max(options.floor, dual.bound));
  }
  if (!round.value) return settle(Math.max(options.floor, dual.bound));
  if (round.value.cost < solution.cost - 1e-9) {
    solution = round.value;
    options.onImprovement?.(solution);
  }
  return { solution, bound: solution.cost, proven: true, searched };

  function settle(bound: number): SolvedModel {
    const proven = closed(bound);
    return { solution, bound: proven ? solution.cost : Math.min(solution.cost, bound), proven, searched };
  }
}
