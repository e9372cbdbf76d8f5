import type { Model } from '../model/model';
import { buildRoute } from '../model/route';
import type { Solution } from '../search/solution';
import { kindsOf, type Column, type Master } from './master';
import { price, type PricingOptions } from './pricing';

/** A lower bound with the duals that prove it: no plan costs less than `bound`. */
export interface DualBound {
  readonly bound: number;
  readonly duals: Float64Array;
  /** True when the relaxation is solved to the end, false when it was cut short. */
  readonly converged: boolean;
}

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
 * Column generation for the set-partitioning relaxation. After every round in which all
 * prices are proven, Lagrange's bound Σ duals + Σ copies × least reduced cost holds for
 * any duals, so that stopping early still leaves a valid bound. A generator that hands
 * back its best bound after each round.
 */
export function* generateColumns(
  model: Model, master: Master, memory: readonly Int32Array[], mostLabels: number,
): Generator<DualBound, DualBound, void> {
  const kinds = kindsOf(model);
  let best: DualBound = { bound: -Infinity, duals: new Float64Array(model.rows), converged: false };
  for (;;) {
    const lp = master.solve();
    if (lp.status !== 'optimal') return best;
    const duals = lp.duals.slice(0, model.rows);
    const found: Column[] = leaves(model, duals).columns;
    const unfinished: typeof kinds = [];
    for (const kind of kinds) {
      const routes = priced(model, kind.shift, duals, { memory, quick: true, mostLabels }, lp.duals[master.kindRow[kind.shift]!]!).columns;
      if (routes.length > 0) found.push(...routes);
      else unfinished.push(kind);
      yield best;
    }
    if (master.add(found) > 0) continue;
    // Quick pricing has nothing left: price exactly, which also gives a bound.
    let bound = leaves(model, duals).value;
    for (const dual of duals) bound += dual;
    let proven = true;
    const more: Column[] = [];
    for (const kind of kinds) {
      const result = priced(model, kind.shift, duals, { memory, quick: false, mostLabels }, lp.duals[master.kindRow[kind.shift]!]!);
      bound += kind.copies * Math.min(0, result.best);
      proven &&= result.proven;
      more.push(...result.columns);
      yield best;
    }
    if (proven && bound > best.bound) best = { bound, duals, converged: false };
    if (!proven) return best;
    if (master.add(more) === 0) return { ...best, converged: true };
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

function priced(
  model: Model, shift: number, duals: Float64Array, options: PricingOptions, kindDual: number,
): { best: number; proven: boolean; columns: Column[] } {
  const result = price(model, shift, duals, options);
  const columns: Column[] = [];
  for (const route of result.routes) {
    if (route.reduced >= kindDual - 1e-7) continue;
    columns.push({ shift, jobs: route.jobs, sets: route.sets, cost: trueCost(model, route.shift, route.jobs, route.sets, route.reduced, duals) });
  }
  return { best: result.best, proven: result.proven, columns };
}

/** From the timetable; for a route that repeats a job (no timetable is asked of those) from its reduced cost. */
function trueCost(
  model: Model, shift: number, jobs: readonly number[], sets: readonly number[], reduced: number, duals: Float64Array,
): number {
  const built = buildRoute(model, shift, jobs, sets);
  if (built) return built.cost;
  let cost = reduced;
  jobs.forEach((job, p) => {
    for (let rest = sets[p]!; rest !== 0; rest &= rest - 1) cost += duals[model.jobs[job]!.firstRow + (31 - Math.clz32(rest & -rest))]!;
  });
  return cost;
}
