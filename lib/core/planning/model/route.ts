import { EPS, itemsCost, latestStart, minutesFor, startAt, type Model } from './model';

/** One shift's stops in order with everything worked out. Never changed after it is built. */
export interface Route {
  readonly shift: number;
  readonly jobs: readonly number[];
  readonly sets: readonly number[];
  /** Per stop: minutes on site, arrival, start of work, end of work. */
  readonly minutes: readonly number[];
  readonly arrive: readonly number[];
  readonly start: readonly number[];
  readonly finish: readonly number[];
  /** How much later each stop could be reached with nothing after it becoming impossible or dearer. */
  readonly slack: readonly number[];
  readonly load: number;
  readonly endArrive: number;
  readonly drive: number;
  readonly late: number;
  readonly overtime: number;
  /** Driving, lateness, overtime, visits and days early or overdue together. */
  readonly cost: number;
}

export function emptyRoute(model: Model, shift: number): Route {
  const from = model.shifts[shift]!.from;
  return {
    shift,
    jobs: [],
    sets: [],
    minutes: [],
    arrive: [],
    start: [],
    finish: [],
    slack: [],
    load: 0,
    endArrive: from,
    drive: 0,
    late: 0,
    overtime: 0,
    cost: 0,
  };
}

/**
 * Times and cost of a sequence of stops, each begun as early as the hours allow.
 * Starting early is best: lateness and overtime only grow with time.
 * Returns null if a stop cannot be made or the technician would be home past the hard end.
 */
export function buildRoute(model: Model, shiftIndex: number, jobs: readonly number[], sets: readonly number[]): Route | null {
  const n = jobs.length;
  if (n === 0) return emptyRoute(model, shiftIndex);
  const shift = model.shifts[shiftIndex]!;
  const views = model.views[shiftIndex]!;
  const { time, drive, places } = model;
  const minutes = new Array<number>(n);
  const arrive = new Array<number>(n);
  const start = new Array<number>(n);
  const finish = new Array<number>(n);
  const slack = new Array<number>(n);
  let at = shift.startPlace;
  let clock = shift.from;
  let driven = 0;
  let late = 0;
  let done = 0;
  let load = 0;
  for (let p = 0; p < n; p++) {
    const job = model.jobs[jobs[p]!]!;
    const view = views[jobs[p]!];
    const set = sets[p]!;
    if (!view || (set & ~view.allowed) !== 0) return null;
    load += job.demand;
    if (load > shift.capacity + EPS) return null;
    const leg = at * places + job.place;
    driven += drive[leg]!;
    clock += time[leg]!;
    arrive[p] = clock;
    const work = minutesFor(job, set);
    const begin = startAt(view, clock, work);
    if (begin === Infinity) return null;
    minutes[p] = work;
    start[p] = begin;
    if (begin > view.promised) late += (begin - view.promised) * view.latePrice;
    done += view.visitCost + itemsCost(view, set);
    clock = begin + work;
    finish[p] = clock;
    at = job.place;
  }
  const home = at * places + shift.endPlace;
  driven += drive[home]!;
  clock += time[home]!;
  if (clock > shift.hardTo + EPS) return null;
  const over = Math.max(0, clock - shift.to);
  let room = Math.max(0, over > 0 ? 0 : shift.to - clock);
  for (let p = n - 1; p >= 0; p--) {
    const view = views[jobs[p]!]!;
    const begin = start[p]!;
    const last = Math.max(0, latestStart(view, begin, minutes[p]!) - begin);
    const unpunished = view.latePrice === 0 || view.promised === Infinity ? Infinity : Math.max(0, view.promised - begin);
    const later = Math.min(last, unpunished, room);
    room = begin - arrive[p]! + (view.step > 0 && later < Infinity ? Math.floor(later / view.step) * view.step : later);
    slack[p] = room;
  }
  const overtime = over * shift.overtimePrice;
  return {
    shift: shiftIndex,
    jobs,
    sets,
    minutes,
    arrive,
    start,
    finish,
    slack,
    load,
    endArrive: clock,
    drive: driven,
    late,
    overtime,
    cost: driven + late + overtime + done,
  };
}
