import type { Random } from '../random';
import { startAt, isClosed, EPS, type Model } from '../model/model';
import { buildRoute, type Route } from '../model/route';
import type { ChoiceBook } from './choices';
import type { Solution } from './solution';

/** How much an insertion leaves to chance. */
export interface Temper {
  /** Share of positions passed over. */
  readonly blink: number;
  /** Share of sets of items passed over for the next best: the best set at a place is not always best for the week. */
  readonly passOver: number;
}

/** The cheapest place found for some of a job's open items. */
export interface Insertion {
  readonly route: Route;
  /** Change of the whole plan's cost; below zero is a gain. */
  readonly delta: number;
}

/**
 * Cheapest insertion of a job's open items into a solution, over shifts, positions and
 * sets of items, including joining a visit that is already there, some passed over by chance
 * ("blinks", Christiaens & Vanden Berghe 2020, section 4.2). Nothing that adds `allowance` or
 * more to the cost is taken.
 */
export function bestInsertion(
  model: Model,
  book: ChoiceBook,
  solution: Solution,
  jobIndex: number,
  random: Random,
  temper: Temper,
  allowance = 0,
): Insertion | null {
  const job = model.jobs[jobIndex]!;
  const open = job.all & ~solution.done[jobIndex]!;
  if (open === 0) return null;
  const { blink, passOver } = temper;
  const { drive, time, places } = model;
  const here = job.place;
  let best = allowance;
  let bestShift = -1;
  let bestAt = -1;
  let bestSet = 0;
  let bestJoins = false;
  let emptyKind = -1;
  for (let s = 0; s < model.shifts.length; s++) {
    const view = model.views[s]![jobIndex];
    if (!view) continue;
    const route = solution.routes[s]!;
    const shift = model.shifts[s]!;
    const n = route.jobs.length;
    if (n === 0) {
      if (shift.kind === emptyKind) continue;
      emptyKind = shift.kind;
    }
    const held = n === 0 ? -1 : route.jobs.indexOf(jobIndex);
    if (held >= 0) {
      const joins = book.joining(s, jobIndex, open);
      for (let c = 0; c < joins.sets.length && joins.net[c]! < best - EPS; c++) {
        const set = route.sets[held]! | joins.sets[c]!;
        if (!isClosed(job, set)) continue;
        const sets = route.sets.slice();
        sets[held] = set;
        const longer = buildRoute(model, s, route.jobs, sets);
        if (!longer) continue;
        const left = open & ~joins.sets[c]!;
        const delta = longer.cost - route.cost + job.leave.cost(left) - job.leave.cost(open);
        if (delta < best - EPS) [best, bestShift, bestAt, bestSet, bestJoins] = [delta, s, held, set, true];
        break;
      }
      continue; // one visit a kitchen in a round
    }
    if (route.load + job.demand > shift.capacity + EPS) continue;
    const choices = book.visit(s, jobIndex, open);
    const count = choices.sets.length;
    if (count === 0) continue;
    for (let p = 0; p <= n; p++) {
      if (blink > 0 && random() < blink) continue;
      const before = p === 0 ? shift.startPlace : model.jobs[route.jobs[p - 1]!]!.place;
      const after = p === n ? shift.endPlace : model.jobs[route.jobs[p]!]!.place;
      const detour = drive[before * places + here]! + drive[here * places + after]! - (n === 0 ? 0 : drive[before * places + after]!);
      if (detour + choices.net[0]! >= best - EPS) continue;
      const arrival = (p === 0 ? shift.from : route.finish[p - 1]!) + time[before * places + here]!;
      for (let c = 0; c < count; c++) {
        const plain = detour + choices.net[c]!;
        if (plain >= best - EPS) break;
        if (passOver > 0 && count > 1 && random() < passOver) continue;
        const work = choices.minutes[c]!;
        const start = startAt(view, arrival, work);
        if (start === Infinity) continue;
        const next = start + work + time[here * places + after]!;
        const onTime = start <= view.promised || view.latePrice === 0;
        const shifted = n === 0 ? next - shift.to : next - (p === n ? route.endArrive : route.arrive[p]!);
        const room = n === 0 ? 0 : p === n ? Math.max(0, shift.to - route.endArrive) : route.slack[p]!;
        let delta = plain;
        if (!onTime || shifted > room + EPS) {
          // Something after this stop moves in a way that costs, or may not fit: work it out.
          const tried = buildRoute(model, s, inserted(route.jobs, p, jobIndex), inserted(route.sets, p, choices.sets[c]!));
          if (!tried) continue;
          const left = open & ~choices.sets[c]!;
          delta = tried.cost - route.cost + job.leave.cost(left) - job.leave.cost(open);
        }
        if (delta < best - EPS) [best, bestShift, bestAt, bestSet, bestJoins] = [delta, s, p, choices.sets[c]!, false];
        if (delta <= plain + EPS) break;
      }
    }
  }
  if (bestShift < 0) return null;
  const route = solution.routes[bestShift]!;
  const built = bestJoins
    ? buildRoute(
        model,
        bestShift,
        route.jobs,
        route.sets.map((set, p) => (p === bestAt ? bestSet : set)),
      )
    : buildRoute(model, bestShift, inserted(route.jobs, bestAt, jobIndex), inserted(route.sets, bestAt, bestSet));
  return built && { route: built, delta: best };
}

export function inserted(list: readonly number[], at: number, value: number): number[] {
  const copy = new Array<number>(list.length + 1);
  for (let i = 0; i < at; i++) copy[i] = list[i]!;
  copy[at] = value;
  for (let i = at; i < list.length; i++) copy[i + 1] = list[i]!;
  return copy;
}
