/**
 * What the solvers work on: numbers only, no names. A week, a Solomon instance
 * and a travelling-salesman file are all compiled to this.
 *
 * Time is in minutes from an origin the compiler chose (plain distance units for the
 * public instances). Cost is in the shop's money (distance for the public instances).
 * Sets of a job's items are bit masks, so a job has at most MAX_ITEMS items.
 */
export const MAX_ITEMS = 30;

/** How one job looks to one shift: what may be done, when, and for how much. */
export interface StopView {
  /** Items this technician may do here on this day. */
  readonly allowed: number;
  /** Opening hours that overlap the shift, ascending and disjoint: work lies inside [open, close]. */
  readonly opens: readonly number[];
  readonly closes: readonly number[];
  /** Cost of doing each item on this day: interval life thrown away, or the price of being overdue. */
  readonly itemCost: readonly number[];
  /** Cost of one visit, whatever is done in it. */
  readonly visitCost: number;
  /** Starts after this are late. Infinity where no time was promised. */
  readonly promised: number;
  readonly latePrice: number;
  /** Work begins at a whole multiple of this; 0 for any moment. */
  readonly step: number;
}

/** Work that stays undone this week: what that costs, for any set of a job's items. */
export interface LeaveCost {
  cost(set: number): number;
  /** The set that gains most when leaving an item also earns its prize: cost(set) − Σ prize, at most zero. */
  dearest(prizes: ArrayLike<number>): { set: number; value: number };
}

/** One place with work: a kitchen's open tasks, or one customer of a public instance. */
export interface Job {
  readonly place: number;
  readonly items: number;
  readonly all: number;
  /** Minutes for every visit whatever is done, then minutes for each item. */
  readonly setup: number;
  readonly minutes: readonly number[];
  readonly demand: number;
  /** For each item the mask of items that must be in the same visit, itself included. */
  readonly brings: readonly number[];
  /** Sets of items the search tries as one visit. */
  readonly bundles: readonly number[];
  readonly leave: LeaveCost;
  /** First row of the job's items when all items of all jobs are counted through. */
  readonly firstRow: number;
  /** Stays on its shift: the search never takes it out. */
  readonly pinned?: boolean;
}

/** One technician's day, or one of a fleet of equal vehicles. */
export interface ShiftModel {
  readonly startPlace: number;
  readonly endPlace: number;
  readonly from: number;
  /** End of the paid day; after it overtime runs until `hardTo`. */
  readonly to: number;
  readonly hardTo: number;
  readonly overtimePrice: number;
  readonly capacity: number;
  /** Shifts with the same kind are interchangeable. */
  readonly kind: number;
}

export interface Model {
  readonly places: number;
  /** Row-major travel time and travel cost between places. */
  readonly time: Float64Array;
  readonly drive: Float64Array;
  readonly jobs: readonly Job[];
  readonly shifts: readonly ShiftModel[];
  /** views[shift][job]; null where this technician can do nothing there that day. */
  readonly views: readonly (readonly (StopView | null)[])[];
  readonly rows: number;
  /** No detour is ever shorter or cheaper than the direct way. */
  readonly triangle: boolean;
  /** All costs are whole numbers, so a bound may be rounded up. */
  readonly wholeCosts: boolean;
}

/** Guards comparisons of sums of decimals; far below a second of a minute-based model. */
export const EPS = 1e-7;

/** True if the set contains everything its items bring along. */
export function isClosed(job: Job, set: number): boolean {
  for (let rest = set; rest !== 0; rest &= rest - 1) {
    const item = 31 - Math.clz32(rest & -rest);
    if ((job.brings[item]! & ~set) !== 0) return false;
  }
  return true;
}

/** Minutes on site for a set of items. */
export function minutesFor(job: Job, set: number): number {
  let sum = job.setup;
  for (let rest = set; rest !== 0; rest &= rest - 1) sum += job.minutes[31 - Math.clz32(rest & -rest)]!;
  return sum;
}

/** Cost of doing a set of items at this stop, the visit itself not counted. */
export function itemsCost(view: StopView, set: number): number {
  let sum = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) sum += view.itemCost[31 - Math.clz32(rest & -rest)]!;
  return sum;
}

/** Earliest start at or after `arrival` that fits `minutes` inside one opening; Infinity if none does. */
export function startAt(view: StopView, arrival: number, minutes: number): number {
  const { opens, closes, step } = view;
  for (let w = 0; w < opens.length; w++) {
    let start = arrival > opens[w]! ? arrival : opens[w]!;
    if (step > 0) start = Math.ceil(start / step) * step;
    if (start + minutes <= closes[w]! + EPS) return start;
  }
  return Infinity;
}

/** What starting then costs for coming later than promised. */
export const latenessAt = (view: StopView, start: number): number => (start > view.promised ? (start - view.promised) * view.latePrice : 0);

/** Latest start in the opening that holds `start`: the first that closes late enough. */
export function latestStart({ closes }: StopView, start: number, minutes: number): number {
  for (const close of closes) if (start + minutes <= close + EPS) return close - minutes;
  return start;
}
