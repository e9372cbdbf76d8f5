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
 * beginning with the one known.
 */
export function* generateColumns(
  model: Model, master: Master, memory: Memory, mostLabels: number, known: DualBound,
): Generator<DualBound, DualBound, void> {
  const kinds = kindsOf(model);
  let best: DualBound = { ...known, converged: false };
  for (;;) {
    const lp = master.solve();
    if (lp.status !== 'optimal') return best;
    const own = lp.duals.slice(0, model.rows);
    for (let smooth = true; ; smooth = false) {
      // The very first look is at the duals that were handed in.
      const step = best.bound === -Infinity ? 0 : STEP;
      const duals = smooth ? own.map((dual, i) => best.duals[i]! + step * (dual - best.duals[i]!)) : own;
      const left = leaves(model, duals);
      let bound = left.value;
      for (const dual of duals) bound += dual;
      const found: Column[] = left.columns;
      const least: number[] = [];
      for (const kind of kinds) {
        const result = price(model, kind.shift, duals, memory, mostLabels);
        if (!result.proven) return best;
        bound += kind.copies * result.best;
        least.push(result.best);
        for (const route of result.routes) {
          const cost = costOf(model, route.shift, route.jobs, route.sets, route.reduced, duals);
          // Wanted by the master's own duals, whatever the smoothed ones say.
          if (cost - worth(model, route.jobs, route.sets, own) < lp.duals[master.kindRow[route.shift]!]! - NOTHING)
            found.push({ shift: route.shift, jobs: route.jobs, sets: route.sets, cost });
        }
        yield best;
      }
      if (bound > best.bound) best = { bound, duals: Float64Array.from(duals), least, converged: false };
      if (bound >= lp.objective - NOTHING * Math.max(1, Math.abs(lp.objective))) return { ...best, converged: true };
      if (master.add(found) > 0) break;
      if (!smooth) return { ...best, converged: true };
    }
  }
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
function worth(model: Model, jobs: readonly number[], sets: readonly number[], duals: Float64Array): number {
  let sum = 0;
  jobs.forEach((job, p) => {
    for (let rest = sets[p]!; rest !== 0; rest &= rest - 1) sum += duals[model.jobs[job]!.firstRow + (31 - Math.clz32(rest & -rest))]!;
  });
  return sum;
}

/** From the timetable; for a route that repeats a job (no timetable is asked of those) from its reduced cost. */
function costOf(
  model: Model, shift: number, jobs: readonly number[], sets: readonly number[], reduced: number, duals: Float64Array,
): number {
  return buildRoute(model, shift, jobs, sets)?.cost ?? reduced + worth(model, jobs, sets, duals);
}
