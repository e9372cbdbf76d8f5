import type { Model } from '../model/model';
import { buildRoute } from '../model/route';
import type { Solution } from '../search/solution';
import { kindsOf, type Column, type Master } from './master';
import type { Memory } from './memory';
import { price } from './pricing';

/** A lower bound with the duals that prove it: no plan costs less than `bound`. */
export interface DualBound {
  readonly bound: number;
  readonly duals: Float64Array;
  /** Least reduced cost of a route at these duals, for each kind of shift; at most zero. */
  readonly least: readonly number[];
  /** True when the relaxation is solved to the end, false when it was cut short. */
  readonly converged: boolean;
}

/** How far prices move from the best duals known towards the master's own (Wentges 1997). */
const STEP = 0.4;
/** Steps of subgradient ascent before the master problem is asked at all. */
const CLIMBS = 25;
/** Reduced costs above this are rounding. */
const NOTHING = 1e-7;

/** Columns of a plan, so that the master problem starts from it. */
export function columnsOf(model: Model, solution: Solution): Column[] {
  const columns: Column[] = [];
  for (const route of solution.routes)
    if (route.jobs.length > 0) columns.push({ shift: route.shift, jobs: route.jobs, sets: route.sets, cost: route.cost });
  model.jobs.forEach((job, j) => {
    for (const set of new Set([job.all & ~solution.done[j]!, job.all]))
      if (set !== 0) columns.push({ shift: -1, jobs: [j], sets: [set], cost: job.leave.cost(set) });
  });
  return columns;
}

/**
 * Column generation for the set-partitioning relaxation, with smoothed duals. Lagrange's
 * bound Σ duals + Σ copies × least reduced cost holds for any duals, so every round of
 * proven prices gives a valid bound, however early it stops. Yields the best so far,
 * beginning with the one known; `target` is the cost of a known plan.
 */
export function* generateColumns(
  model: Model,
  master: Master,
  memory: Memory,
  mostLabels: number,
  start: DualBound,
  target: number,
): Generator<DualBound, DualBound, void> {
  let best: DualBound = { ...start, converged: false };
  const look = function* (duals: Float64Array): Generator<DualBound, Priced | null, void> {
    const priced = yield* priceAll(model, duals, memory, mostLabels, best);
    if (priced && priced.bound > best.bound) best = { bound: priced.bound, duals, least: priced.least, converged: false };
    return priced;
  };
  if (best.bound === -Infinity) {
    // Far from the best duals the master's own lead nowhere: climb towards them first.
    let duals = best.duals;
    let step = 1;
    for (let round = 0; round < CLIMBS; round++) {
      const before = best.bound;
      const priced = yield* look(duals);
      if (!priced) return best;
      master.add(priced.columns);
      if (priced.bound <= before) step *= 0.7;
      const slope = priced.missing;
      const norm = slope.reduce((sum, value) => sum + value * value, 0);
      if (norm < 1e-9) break;
      const length = (step * Math.max(0, target - priced.bound)) / norm;
      duals = duals.map((dual, i) => dual + length * slope[i]!);
    }
  }
  for (;;) {
    const lp = master.solve();
    if (lp.status !== 'optimal') return best;
    const own = lp.duals.slice(0, model.rows);
    for (let smooth = true; ; smooth = false) {
      const duals = smooth ? own.map((dual, i) => best.duals[i]! + STEP * (dual - best.duals[i]!)) : own;
      const priced = yield* look(duals);
      if (!priced) return best;
      if (best.bound >= lp.objective - NOTHING * Math.max(1, Math.abs(lp.objective))) return { ...best, converged: true };
      // Wanted by the master's own duals, whatever the smoothed ones say.
      const wanted = priced.columns.filter(
        (column) => column.shift < 0 || column.cost - worth(model, column, own) < lp.duals[master.kindRow[column.shift]!]! - NOTHING,
      );
      if (master.add(wanted) > 0) break;
      if (!smooth) return { ...best, converged: true };
    }
  }
}

interface Priced {
  readonly bound: number;
  readonly least: readonly number[];
  readonly columns: readonly Column[];
  /** How often each item is missing from what the prices choose (below zero: done too often). */
  readonly missing: Float64Array;
}

/** Prices every kind of shift and every job's leaving at given duals. Null if some price could not be proven. */
function* priceAll(
  model: Model,
  duals: Float64Array,
  memory: Memory,
  mostLabels: number,
  best: DualBound,
): Generator<DualBound, Priced | null, void> {
  const left = leaves(model, duals);
  const columns = left.columns;
  const missing = new Float64Array(model.rows).fill(1);
  for (const column of left.columns) count(model, column, missing, 1);
  let bound = left.value;
  for (const dual of duals) bound += dual;
  const least: number[] = [];
  for (const kind of kindsOf(model)) {
    const work = price(model, kind.shift, duals, memory, mostLabels);
    let step = work.next();
    for (; !step.done; step = work.next()) yield best;
    const result = step.value;
    if (!result.proven) return null;
    bound += kind.copies * result.best;
    least.push(result.best);
    result.routes.forEach(({ shift, jobs, sets, reduced }, i) => {
      if (i === 0) count(model, { jobs, sets }, missing, kind.copies);
      columns.push({
        shift,
        jobs,
        sets,
        cost: buildRoute(model, shift, jobs, sets)?.cost ?? reduced + worth(model, { jobs, sets }, duals),
      });
    });
    yield best;
  }
  return { bound, least, columns, missing };
}

type Content = Pick<Column, 'jobs' | 'sets'>;

function count(model: Model, { jobs, sets }: Content, missing: Float64Array, copies: number): void {
  jobs.forEach((job, p) => {
    for (let rest = sets[p]!; rest !== 0; rest &= rest - 1) missing[model.jobs[job]!.firstRow + (31 - Math.clz32(rest & -rest))]! -= copies;
  });
}

function leaves(model: Model, duals: Float64Array): { value: number; columns: Column[] } {
  let value = 0;
  const columns: Column[] = [];
  model.jobs.forEach((job, j) => {
    const dearest = job.leave.dearest(duals.subarray(job.firstRow, job.firstRow + job.items));
    value += dearest.value;
    if (dearest.value < -1e-9) columns.push({ shift: -1, jobs: [j], sets: [dearest.set], cost: job.leave.cost(dearest.set) });
  });
  return { value, columns };
}

/** Sum of the duals of what a route does. */
function worth(model: Model, { jobs, sets }: Content, duals: Float64Array): number {
  let sum = 0;
  jobs.forEach((job, p) => {
    for (let rest = sets[p]!; rest !== 0; rest &= rest - 1) sum += duals[model.jobs[job]!.firstRow + (31 - Math.clz32(rest & -rest))]!;
  });
  return sum;
}
