import type { Model } from '../model/model';
import { buildRoute } from '../model/route';
import { costOf, nothingDone, setRoute, type Solution } from '../search/solution';
import type { DualBound } from './column-generation';
import { enumerateRoutes } from './enumerate';
import type { LpSolver } from './lp';
import { kindsOf, openMaster, type Column } from './master';
import { tighten } from './subset-rows';

/** Sets left undone are listed in full up to this many items a job. */
const MOST_ITEMS = 13;

export interface ProofLimits {
  readonly mostPartials: number;
  readonly mostColumns: number;
  /** Asked once, right before the integer program, which cannot be interrupted. */
  readonly remainingMs: () => number;
}

/**
 * Closes the gap: lists every route and every set left undone that a better plan could
 * use, and solves the integer program over them. Returns the proven best plan, or null if
 * the lists grow too long or time runs out.
 */
export function* proveOptimal(
  model: Model,
  solver: LpSolver,
  dual: DualBound,
  incumbent: Solution,
  limits: ProofLimits,
): Generator<void, Solution | null, void> {
  if (model.jobs.some((job) => job.items > MOST_ITEMS)) return null;
  const gap = incumbent.cost - dual.bound + 1e-6;
  const columns: Column[] = leaveColumns(model, dual.duals, gap);
  for (const [k, kind] of kindsOf(model).entries()) {
    // The bound already counts each kind's cheapest route; only what a route costs beyond it eats into the gap.
    const routes = yield* enumerateRoutes(model, kind.shift, dual.duals, gap + dual.least[k]!, gap, limits.mostPartials);
    if (!routes) return null;
    columns.push(...routes);
    if (columns.length > limits.mostColumns) return null;
  }
  const { columns: left, bound } = yield* tighten(model, solver, columns, incumbent.cost);
  if (left.length === 0 || bound >= incumbent.cost - 1e-6) return incumbent;
  const master = openMaster(model, solver);
  try {
    master.add(left);
    const whole = master.solveWhole(limits.remainingMs());
    if (whole.status !== 'optimal') return null;
    return toSolution(
      model,
      master.columns.filter((_, c) => whole.primal[c]! > 0.5),
    );
  } finally {
    master.close();
  }
}

function leaveColumns(model: Model, duals: Float64Array, gap: number): Column[] {
  return model.jobs.flatMap((job, j) => {
    const columns: Column[] = [];
    for (let set = job.all; set !== 0; set = (set - 1) & job.all) {
      const cost = job.leave.cost(set);
      let reduced = cost;
      for (let i = 0; i < job.items; i++) if ((set & (1 << i)) !== 0) reduced -= duals[job.firstRow + i]!;
      if (reduced <= gap) columns.push({ shift: -1, jobs: [j], sets: [set], cost });
    }
    return columns;
  });
}

/** Hands each chosen route to a shift of its kind. */
function toSolution(model: Model, chosen: readonly Column[]): Solution | null {
  const solution = nothingDone(model);
  const used = new Set<number>();
  for (const column of chosen) {
    if (column.shift < 0) continue;
    const kind = model.shifts[column.shift]!.kind;
    const shift = model.shifts.findIndex((candidate, s) => candidate.kind === kind && !used.has(s));
    const route = shift < 0 ? null : buildRoute(model, shift, column.jobs, column.sets);
    if (!route) return null;
    used.add(shift);
    setRoute(model, solution, route);
  }
  solution.cost = costOf(model, solution);
  return solution;
}
