import type { Model } from '../model/model';
import type { Solution } from '../search/solution';

/**
 * A guess at the duals from a good plan: every item is priced at its share of what the plan
 * pays for it, half of the drives to either side of its visit included. The parts add up to
 * the plan's cost, so if the plan is near the best the guess is near the best duals.
 */
export function startingDuals(model: Model, solution: Solution): Float64Array {
  const duals = new Float64Array(model.rows);
  const share = (job: number, set: number, common: number): void => {
    const { firstRow, leave } = model.jobs[job]!;
    let weights = 0;
    for (let rest = set; rest !== 0; rest &= rest - 1) weights += 1e-9 + leave.cost(rest & -rest);
    for (let rest = set; rest !== 0; rest &= rest - 1)
      duals[firstRow + (31 - Math.clz32(rest & -rest))]! += (common * (1e-9 + leave.cost(rest & -rest))) / weights;
  };
  for (const route of solution.routes) {
    if (route.jobs.length === 0) continue;
    const { startPlace, endPlace } = model.shifts[route.shift]!;
    const stops = [startPlace, ...route.jobs.map((job) => model.jobs[job]!.place), endPlace];
    const leg = (p: number): number => model.drive[stops[p]! * model.places + stops[p + 1]!]!;
    const last = route.jobs.length - 1;
    const common = (route.late + route.overtime) / route.jobs.length;
    route.jobs.forEach((job, p) => {
      const view = model.views[route.shift]![job]!;
      // The ends of a round belong wholly to its first and last stop.
      const drives = (p === 0 ? leg(p) : leg(p) / 2) + (p === last ? leg(p + 1) : leg(p + 1) / 2);
      share(job, route.sets[p]!, view.visitCost + drives + common);
      const { firstRow } = model.jobs[job]!;
      for (let rest = route.sets[p]!; rest !== 0; rest &= rest - 1) {
        const item = 31 - Math.clz32(rest & -rest);
        duals[firstRow + item]! += view.itemCost[item]!;
      }
    });
  }
  model.jobs.forEach((job, j) => {
    const left = job.all & ~solution.done[j]!;
    if (left !== 0) share(j, left, job.leave.cost(left));
  });
  return duals;
}
