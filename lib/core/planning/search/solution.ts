import type { Model } from '../model/model';
import { emptyRoute, type Route } from '../model/route';

/** One route a shift (routes are shared between solutions, never changed) and what is done of each job. */
export interface Solution {
  readonly routes: Route[];
  readonly done: Int32Array;
  cost: number;
}

export function nothingDone(model: Model): Solution {
  let cost = 0;
  for (const job of model.jobs) cost += job.leave.cost(job.all);
  return { routes: model.shifts.map((_, s) => emptyRoute(model, s)), done: new Int32Array(model.jobs.length), cost };
}

export function copyOf(solution: Solution): Solution {
  return { routes: solution.routes.slice(), done: solution.done.slice(), cost: solution.cost };
}

/** Swaps in a new version of one shift's route and keeps `done` and the cost in step. */
export function setRoute(model: Model, solution: Solution, route: Route): void {
  const before = solution.routes[route.shift]!;
  let delta = route.cost - before.cost;
  const touched = new Map<number, number>();
  before.jobs.forEach((job, p) => touched.set(job, (touched.get(job) ?? solution.done[job]!) & ~before.sets[p]!));
  route.jobs.forEach((job, p) => touched.set(job, (touched.get(job) ?? solution.done[job]!) | route.sets[p]!));
  for (const [index, done] of touched) {
    const was = solution.done[index]!;
    if (was === done) continue;
    const job = model.jobs[index]!;
    delta += job.leave.cost(job.all & ~done) - job.leave.cost(job.all & ~was);
    solution.done[index] = done;
  }
  solution.routes[route.shift] = route;
  solution.cost += delta;
}

/** Cost added up afresh, free of the drift that many small changes leave. */
export function costOf(model: Model, solution: Solution): number {
  let cost = 0;
  for (const route of solution.routes) cost += route.cost;
  model.jobs.forEach((job, j) => (cost += job.leave.cost(job.all & ~solution.done[j]!)));
  return cost;
}
