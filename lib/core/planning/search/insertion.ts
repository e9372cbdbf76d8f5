import type { Random } from '../random';
import { startAt, isClosed, EPS, type Job, type Model } from '../model/model';
import { buildRoute, type Route } from '../model/route';
import type { ChoiceBook, Choices } from './choices';
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

/** One search for a job's place: what is the same at every place, and the best of them so far. */
interface Search {
  readonly model: Model;
  readonly book: ChoiceBook;
  readonly jobIndex: number;
  readonly job: Job;
  readonly open: number;
  readonly random: Random;
  readonly temper: Temper;
  best: number;
  /** −1 while nothing is cheap enough. */
  shift: number;
  at: number;
  set: number;
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
  const search: Search = { model, book, jobIndex, job, open, random, temper, best: allowance, shift: -1, at: 0, set: 0 };
  let emptyKind = -1;
  for (let s = 0; s < model.shifts.length; s++) {
    if (!model.views[s]![jobIndex]) continue;
    const route = solution.routes[s]!;
    if (route.jobs.length === 0) {
      // Of empty rounds of one kind the first speaks for all.
      const { kind } = model.shifts[s]!;
      if (kind === emptyKind) continue;
      emptyKind = kind;
    }
    const held = route.jobs.indexOf(jobIndex);
    // One visit a kitchen in a round.
    if (held >= 0) tryJoining(search, s, route, held);
    else tryVisit(search, s, route);
  }
  return search.shift < 0 ? null : taken(search, solution.routes[search.shift]!);
}

/** Items added to the job's visit at position `held` of the route. */
function tryJoining(search: Search, s: number, route: Route, held: number): void {
  const { model, job, open } = search;
  const joins = search.book.joining(s, search.jobIndex, open);
  for (let c = 0; c < joins.sets.length && joins.net[c]! < search.best - EPS; c++) {
    const set = route.sets[held]! | joins.sets[c]!;
    if (!isClosed(job, set)) continue;
    const longer = buildRoute(model, s, route.jobs, replaced(route.sets, held, set));
    if (!longer) continue;
    keepIfBetter(search, s, held, set, changeOfCost(search, route, longer, joins.sets[c]!));
    return;
  }
}

/** A visit of its own at any position of the route. */
function tryVisit(search: Search, s: number, route: Route): void {
  const { model, job, random } = search;
  const { blink } = search.temper;
  if (route.load + job.demand > model.shifts[s]!.capacity + EPS) return;
  const choices = search.book.visit(s, search.jobIndex, search.open);
  if (choices.sets.length === 0) return;
  for (let p = 0; p <= route.jobs.length; p++) if (blink <= 0 || random() >= blink) tryPosition(search, s, route, p, choices);
}

function tryPosition(search: Search, s: number, route: Route, p: number, choices: Choices): void {
  const { model, random, job } = search;
  const { passOver } = search.temper;
  const { drive, time, places } = model;
  const shift = model.shifts[s]!;
  const n = route.jobs.length;
  const here = job.place;
  const before = p === 0 ? shift.startPlace : model.jobs[route.jobs[p - 1]!]!.place;
  const after = p === n ? shift.endPlace : model.jobs[route.jobs[p]!]!.place;
  const detour = drive[before * places + here]! + drive[here * places + after]! - (n === 0 ? 0 : drive[before * places + after]!);
  if (detour + choices.net[0]! >= search.best - EPS) return;
  const arrival = (p === 0 ? shift.from : route.finish[p - 1]!) + time[before * places + here]!;
  const onward = time[here * places + after]!;
  const count = choices.sets.length;
  for (let c = 0; c < count; c++) {
    const plain = detour + choices.net[c]!;
    if (plain >= search.best - EPS) return;
    if (passOver > 0 && count > 1 && random() < passOver) continue;
    const set = choices.sets[c]!;
    const delta = costAt(search, s, route, p, { set, plain, arrival, work: choices.minutes[c]!, onward });
    keepIfBetter(search, s, p, set, delta);
    if (delta <= plain + EPS) return;
  }
}

/** A visit as it would stand in the route: `plain` is its cost while nothing after it moves in a way that costs. */
interface Trial {
  readonly set: number;
  readonly plain: number;
  readonly arrival: number;
  readonly work: number;
  /** Travel to what comes after it. */
  readonly onward: number;
}

/** What the visit adds to the cost at position p; Infinity where it does not fit. */
function costAt(search: Search, s: number, route: Route, p: number, trial: Trial): number {
  const { model, jobIndex } = search;
  const view = model.views[s]![jobIndex]!;
  const start = startAt(view, trial.arrival, trial.work);
  if (start === Infinity) return Infinity;
  const onTime = start <= view.promised || view.latePrice === 0;
  const next = start + trial.work + trial.onward;
  if (onTime && next <= latestNext(model, s, route, p) + EPS) return trial.plain;
  // Something after this stop moves in a way that costs, or may not fit: work it out.
  const tried = buildRoute(model, s, inserted(route.jobs, p, jobIndex), inserted(route.sets, p, trial.set));
  return tried ? changeOfCost(search, route, tried, trial.set) : Infinity;
}

/** Until when what now stands at position p (or the way home) can be reached without moving anything that costs. */
function latestNext(model: Model, s: number, route: Route, p: number): number {
  const { to } = model.shifts[s]!;
  const n = route.jobs.length;
  if (n === 0) return to;
  return p === n ? Math.max(to, route.endArrive) : route.arrive[p]! + route.slack[p]!;
}

const changeOfCost = ({ job, open }: Search, from: Route, to: Route, set: number): number =>
  to.cost - from.cost + job.leave.cost(open & ~set) - job.leave.cost(open);

function keepIfBetter(search: Search, shift: number, at: number, set: number, delta: number): void {
  if (!(delta < search.best - EPS)) return;
  search.best = delta;
  search.shift = shift;
  search.at = at;
  search.set = set;
}

/** The place found, as the route it makes. */
function taken({ model, jobIndex, shift, at, set, best }: Search, route: Route): Insertion | null {
  const built = route.jobs.includes(jobIndex)
    ? buildRoute(model, shift, route.jobs, replaced(route.sets, at, set))
    : buildRoute(model, shift, inserted(route.jobs, at, jobIndex), inserted(route.sets, at, set));
  return built && { route: built, delta: best };
}

function replaced(list: readonly number[], at: number, value: number): number[] {
  const copy = list.slice();
  copy[at] = value;
  return copy;
}

export function inserted(list: readonly number[], at: number, value: number): number[] {
  const copy = new Array<number>(list.length + 1);
  for (let i = 0; i < at; i++) copy[i] = list[i]!;
  copy[at] = value;
  for (let i = at; i < list.length; i++) copy[i + 1] = list[i]!;
  return copy;
}
