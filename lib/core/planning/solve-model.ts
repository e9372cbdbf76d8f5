import { columnsOf, generateColumns, type DualBound } from './bound/column-generation';
import type { LpSolver } from './bound/lp';
import { openMaster, type Column } from './bound/master';
import { nearMemory, remembers, widenMemory } from './bound/memory';
import { proveOptimal } from './bound/prove';
import { startingDuals } from './bound/starting-duals';
import type { Model } from './model/model';
import { anneal } from './search/anneal';
import { routePool } from './search/route-pool';
import { copyOf, type Solution } from './search/solution';
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
  /** Keep searching until time is up where no proof was found. The plan then depends on the machine. */
  readonly useAllTime?: boolean;
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

const POOL = 1500;
const MOST_LABELS = 2_000_000;
const MOST_PARTIALS = 250_000;
const MOST_COLUMNS = 60_000;
/** Jobs each job remembers to begin with; more as routes that return show the need. */
const REMEMBERED = 4;
/** With a gap wider than this share of the cost, lists grow too long for all but tiny models: give up soon. */
const WIDE_GAP = 0.2;
const FEW_PARTIALS = 20_000;
/** Share of the time that the search may use when a bound is asked for as well. */
const SEARCH_SHARE = 0.5;

/**
 * Search, then bound, then proof. A generator that hands back control every few
 * milliseconds (longer while a linear program runs), so that it can be stopped at any
 * yield; whatever it holds open is closed when it is abandoned with `return()`.
 */
export function* solveModel(model: Model, options: ModelSolveOptions): Generator<void, SolvedModel, void> {
  const { seed, iterations, lp, remainingMs, onImprovement } = options;
  const pool = routePool(model, POOL);
  const stopAt = lp ? remainingMs() * (1 - SEARCH_SHARE) : 0;
  const whole = remainingMs() - stopAt;
  let skipped = false;
  const search = anneal(model, {
    seed,
    iterations,
    start: options.start,
    onImprovement,
    onTried: (solution) => pool.collect(solution),
    pace: () => 1 - (remainingMs() - stopAt) / whole,
    onSkipped: () => (skipped = true),
  });
  const hunt = yield* stepWhile(search, () => remainingMs() > stopAt);
  const at: Standing = { solution: hunt.done ? hunt.result : hunt.last, bound: options.floor };
  if (lp && model.jobs.length > 0 && !isClosed(model, at)) yield* tighten(model, lp, at, pool.routes(), options);
  if (options.useAllTime) yield* searchOn(model, at, options);
  const proven = isClosed(model, at);
  return {
    solution: at.solution,
    bound: proven ? at.solution.cost : Math.min(at.solution.cost, at.bound),
    proven,
    searched: hunt.done && !skipped,
  };
}

/** The best plan so far, and the cost below which there is none. */
interface Standing {
  solution: Solution;
  bound: number;
}

const isClosed = (model: Model, { solution, bound }: Standing): boolean =>
  bound > solution.cost - (model.wholeCosts ? 1 - 1e-6 : 1e-6 * Math.max(1, Math.abs(solution.cost)));

/** Raises the bound, and takes a better plan where the proof finds one. Changes `at`. */
function* tighten(
  model: Model,
  lp: LpSolver,
  at: Standing,
  met: readonly Column[],
  options: ModelSolveOptions,
): Generator<void, void, void> {
  const { remainingMs, onImprovement } = options;
  const gap = closeGap(model, lp, at.solution, met, remainingMs);
  const outcome = yield* stepWhile(gap, () => remainingMs() > 0 && !isClosed(model, at));
  const found = outcome.done ? outcome.result : outcome.last;
  at.bound = Math.max(at.bound, found.bound);
  if (found.proven && found.proven.cost < at.solution.cost - 1e-9) {
    at.solution = found.proven;
    onImprovement?.(at.solution);
  }
  if (found.proven) at.bound = at.solution.cost;
}

/** Searches from other seeds until it is proven or time is up. Changes `at`. */
function* searchOn(model: Model, at: Standing, options: ModelSolveOptions): Generator<void, void, void> {
  const { seed, iterations, remainingMs, onImprovement } = options;
  for (let more = 1; !isClosed(model, at) && remainingMs() > 0; more++) {
    const again = anneal(model, { seed: seed + more, iterations, start: copyOf(at.solution) });
    const next = yield* stepWhile(again, () => remainingMs() > 0);
    const better = next.done ? next.result : next.last;
    if (better.cost >= at.solution.cost - 1e-9) continue;
    at.solution = better;
    onImprovement?.(at.solution);
  }
}

interface Closing {
  readonly bound: number;
  /** The best plan there is, once that is proven. */
  readonly proven: Solution | null;
}

/** Tightens the bound step by step, trying after each step whether the rest of the gap can be closed by listing routes. */
function* closeGap(
  model: Model,
  lp: LpSolver,
  solution: Solution,
  met: readonly Column[],
  remainingMs: () => number,
): Generator<Closing, Closing, void> {
  const memory = nearMemory(model, REMEMBERED);
  let columns: readonly Column[] = [
    ...columnsOf(model, solution),
    ...met.map(({ shift, jobs, sets, cost }) => ({ shift, jobs, sets, cost })),
  ];
  let dual: DualBound = { bound: -Infinity, duals: startingDuals(model, solution), least: [], converged: false };
  for (let partials = MOST_PARTIALS; ; partials *= 2) {
    const master = openMaster(model, lp);
    let returns: boolean;
    try {
      master.add(columns.filter((column) => remembers(memory, column.jobs)));
      const work = generateColumns(model, master, memory, MOST_LABELS, dual, solution.cost);
      let step = work.next();
      for (; !step.done; step = work.next()) {
        dual = step.value;
        yield { bound: dual.bound, proven: null };
      }
      dual = step.value;
      columns = master.columns;
      const { status, primal } = master.solve();
      returns =
        status === 'optimal' &&
        widenMemory(
          memory,
          columns.filter((_, c) => primal[c]! > 1e-6),
        );
    } finally {
      master.close();
    }
    yield { bound: dual.bound, proven: null };
    if (!dual.converged) return { bound: dual.bound, proven: null };
    const wide = solution.cost - dual.bound > WIDE_GAP * Math.abs(solution.cost);
    const limits = { mostPartials: wide ? FEW_PARTIALS : partials, mostColumns: MOST_COLUMNS, remainingMs };
    const proof = proveOptimal(model, lp, dual, solution, limits);
    try {
      let step = proof.next();
      for (; !step.done; step = proof.next()) yield { bound: dual.bound, proven: null };
      if (step.value) return { bound: step.value.cost, proven: step.value };
    } finally {
      proof.return(null);
    }
    if (!returns) return { bound: dual.bound, proven: null };
  }
}
