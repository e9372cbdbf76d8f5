import { columnsOf, generateColumns, type DualBound } from './bound/column-generation';
import type { LpSolver } from './bound/lp';
import { openMaster } from './bound/master';
import { nearMemory } from './bound/memory';
import { proveOptimal } from './bound/prove';
import type { Model } from './model/model';
import { anneal } from './search/anneal';
import { routePool, type RoutePool } from './search/route-pool';
import { neighbours } from './search/ruin';
import type { Solution } from './search/solution';
import { stepWhile } from './steps';

export interface ModelSolveOptions {
  readonly seed: number;
  readonly iterations: number;
  /** Without a solver there is a plan but no bound beyond `floor`. */
  readonly lp?: LpSolver;
  /** Milliseconds left; the only clock the solver knows. */
  readonly remainingMs: () => number;
  readonly start?: Solution;
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
/** Remembering every job seen is affordable for a few dozen; beyond that the nearest ones do. */
const ALL_REMEMBERED = 31;
const NEAR_REMEMBERED = 10;
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
    seed: options.seed, iterations: options.iterations, start: options.start, onImprovement: options.onImprovement, onAccepted: (solution) => pool.collect(solution),
  });
  const stopAt = options.lp ? options.remainingMs() * (1 - SEARCH_SHARE) : 0;
  const hunt = yield* stepWhile(search, () => options.remainingMs() > stopAt);
  const searched = hunt.done;
  let solution = hunt.done ? hunt.result : hunt.last;
  const closed = (bound: number): boolean => bound > solution.cost - (model.wholeCosts ? 1 - 1e-6 : 1e-6 * Math.max(1, Math.abs(solution.cost)));
  const settle = (bound: number): SolvedModel => {
    const proven = closed(bound);
    return { solution, bound: proven ? solution.cost : Math.min(solution.cost, bound), proven, searched };
  };
  if (!options.lp || model.jobs.length === 0 || closed(options.floor)) return settle(options.floor);

  const dual = yield* dualBound(model, options.lp, solution, pool, options.remainingMs);
  const bound = Math.max(options.floor, dual.bound);
  if (closed(bound) || !dual.converged || options.remainingMs() <= 0) return settle(bound);
  const limits = { mostPartials: MOST_PARTIALS, mostColumns: MOST_COLUMNS, remainingMs: options.remainingMs };
  const proof = yield* stepWhile(proveOptimal(model, options.lp, dual, solution, limits), () => options.remainingMs() > 0);
  if (!proof.done || !proof.result) return settle(bound);
  if (proof.result.cost < solution.cost - 1e-9) {
    solution = proof.result;
    options.onImprovement?.(solution);
  }
  return { solution, bound: solution.cost, proven: true, searched };
}

/** Column generation from what the search has met, as far as time allows. */
function* dualBound(model: Model, lp: LpSolver, solution: Solution, pool: RoutePool, remainingMs: () => number): Generator<void, DualBound, void> {
  const master = openMaster(model, lp);
  try {
    master.add(columnsOf(model, solution));
    master.add(pool.routes().map(({ shift, jobs, sets, cost }) => ({ shift, jobs, sets, cost })));
    const memory = nearMemory(model, neighbours(model), model.jobs.length <= ALL_REMEMBERED ? model.jobs.length : NEAR_REMEMBERED);
    const outcome = yield* stepWhile(generateColumns(model, master, memory, MOST_LABELS), () => remainingMs() > 0);
    return outcome.done ? outcome.result : outcome.last;
  } finally {
    master.close();
  }
}
