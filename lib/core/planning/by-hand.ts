import { closure } from './model/bundles';
import { buildRoute, type Route } from './model/route';
import { costOf, setRoute, type Solution } from './search/solution';
import type { CostBreakdown, PlannedVisit, Round, WeekProblem } from './types';
import { compileWeek } from './week/compile';
import type { CompiledWeek } from './week/compiled';
import { isDue } from './week/costs';
import { placeFixed } from './week/fixed';
import { breakdown, visitsOf } from './week/to-plan';

export interface HandPlan {
  readonly visits: readonly PlannedVisit[];
  readonly rounds: readonly Round[];
  readonly cost: CostBreakdown;
}

/**
 * What a person gets by booking in due order: the kitchen with the oldest due work goes to
 * the nearest technician who can take it on the first day there is room, after what is
 * booked already, with all its due work in one visit. A measure to hold a plan against.
 */
export function bookByHand(problem: WeekProblem): HandPlan {
  const week = compileWeek(problem);
  const { start: solution } = placeFixed(week);
  const { jobs, model } = week;
  const dueOf = (j: number): number => Math.min(...jobs[j]!.tasks.map((task) => task.dueDay));
  const order = [...jobs.keys()].filter((j) => !jobs[j]!.fixed && dueOf(j) < problem.nextDay).sort((a, b) => dueOf(a) - dueOf(b) || a - b);
  for (const j of order) {
    const job = model.jobs[j]!;
    let due = jobs[j]!.tasks.reduce((set, task, i) => (isDue(task, problem.nextDay) ? set | (1 << i) : set), 0);
    // All of it in one visit; what no one can do together is booked again as far as someone can.
    for (let visit = 0; visit < job.items && due !== 0; visit++) {
      const route = nearest(week, solution, j, closure(job, due)) ?? firstPart(week, solution, j, due);
      if (!route) break;
      setRoute(model, solution, route);
      due &= ~solution.done[j]!;
    }
  }
  solution.cost = costOf(model, solution);
  return { ...visitsOf(week, solution), cost: breakdown(week, solution) };
}

/** The set appended to the round of the nearest technician on the first day with room. */
function nearest({ model, shifts }: CompiledWeek, solution: Solution, j: number, set: number): Route | null {
  const here = model.jobs[j]!.place;
  if ((solution.done[j]! & set) !== 0) return null;
  const days = [...new Set(shifts.map(({ shift }) => shift.day))].sort((a, b) => a - b);
  for (const day of days) {
    let best: Route | null = null;
    let way = Infinity;
    shifts.forEach(({ shift }, s) => {
      const route = solution.routes[s]!;
      if (shift.day !== day || route.jobs.includes(j)) return;
      const last = route.jobs.length === 0 ? model.shifts[s]!.startPlace : model.jobs[route.jobs[route.jobs.length - 1]!]!.place;
      const minutes = model.time[last * model.places + here]!;
      if (minutes >= way) return;
      const longer = buildRoute(model, s, [...route.jobs, j], [...route.sets, set]);
      // A person does not book into overtime or make a promised visit late.
      if (!longer || longer.overtime > route.overtime || longer.late > route.late) return;
      best = longer;
      way = minutes;
    });
    if (best) return best;
  }
  return null;
}

/** The same for the first single item, with what rides along, that fits somewhere. */
function firstPart(week: CompiledWeek, solution: Solution, j: number, due: number): Route | null {
  const job = week.model.jobs[j]!;
  for (let rest = due; rest !== 0; rest &= rest - 1) {
    const route = nearest(week, solution, j, closure(job, rest & -rest));
    if (route) return route;
  }
  return null;
}
