import { EPS, startAt, type Model } from '../model/model';
import { legsOf, type Legs } from './legs';
import type { Option } from './options';

/** Slices of the shift: finer is tighter but dearer. */
const SLICES = 48;
const MOST_SLICES = 640;

/**
 * Completion bounds for pruning partial routes: least reduced cost of finishing a route
 * from a job whose work ends at a given time or later. A table over jobs and slices of
 * time, filled from the end of the shift backwards. Every finish is counted as the
 * beginning of its slice and only going straight back (a, b, a) is forbidden, so the bound
 * is never too high. Minus infinity everywhere for a shift without an end.
 */
export class CompletionBounds {
  private readonly columns: number;
  private readonly from: number;
  private readonly width: number;
  /** Best way on, the job it goes to (−1 home), and the best that goes elsewhere. */
  private readonly first: Float64Array;
  private readonly second: Float64Array;
  private readonly next: Int32Array;
  private readonly legs: Legs;

  constructor(
    private readonly model: Model,
    private readonly shiftIndex: number,
    private readonly options: readonly (readonly Option[])[],
  ) {
    const { jobs } = model;
    const n = jobs.length;
    this.legs = legsOf(model, shiftIndex);
    const shift = model.shifts[shiftIndex]!;
    const span = shift.hardTo - shift.from;
    const active = [...jobs.keys()].filter((j) => options[j]!.length > 0);
    let shortestStep = Infinity;
    for (const j of active)
      for (const k of active) if (j !== k) shortestStep = Math.min(shortestStep, this.legs.time[j * n + k]! + options[k]![0]!.minutes);
    const bounded = Number.isFinite(span) && span > 0;
    const slices = bounded ? Math.min(MOST_SLICES, Math.max(SLICES, Math.ceil(span / Math.max(1e-9, shortestStep)))) : 0;
    this.columns = slices + 1;
    this.from = shift.from;
    this.width = bounded ? span / slices : Infinity;
    this.first = new Float64Array(jobs.length * this.columns).fill(bounded ? Infinity : -Infinity);
    this.second = this.first.slice();
    this.next = new Int32Array(this.first.length).fill(-2);
    if (!bounded) return;
    for (let g = slices; g >= 0; g--) {
      // Steps shorter than a slice end in the slice they begin in: repeat until nothing moves.
      for (let round = 0; round < jobs.length; round++) {
        let moved = false;
        for (const j of active) if (this.fill(j, g, active)) moved = true;
        if (!moved || shortestStep >= this.width) break;
      }
    }
  }

  /** A little slack is left for the rounding of many sums. */
  toGo(job: number, finish: number): number {
    return this.first[job * this.columns + this.slice(finish)]! - 1e-6;
  }

  /** Nothing ends before the shift begins or after its hard end. */
  private slice(at: number): number {
    return Math.floor((at - this.from) / this.width);
  }

  /** Works out one cell; true if it fell. */
  private fill(j: number, g: number, active: readonly number[]): boolean {
    const { model, options, first, second, next, columns } = this;
    const { time, drive, homeTime, homeDrive } = this.legs;
    const shift = model.shifts[this.shiftIndex]!;
    const views = model.views[this.shiftIndex]!;
    const cell = j * columns + g;
    const clock = this.from + g * this.width;
    const row = j * model.jobs.length;
    const home = clock + homeTime[j]!;
    let best = Infinity;
    let other = Infinity;
    let to = -2;
    if (home <= shift.hardTo + EPS) {
      best = homeDrive[j]! + (home > shift.to ? (home - shift.to) * shift.overtimePrice : 0);
      to = -1;
    }
    for (const k of active) {
      if (k === j) continue;
      const view = views[k]!;
      const arrival = clock + time[row + k]!;
      let through = Infinity;
      for (const option of options[k]!) {
        const start = startAt(view, arrival, option.minutes);
        const finish = start + option.minutes;
        if (finish > shift.hardTo + EPS) break;
        const then = k * columns + this.slice(finish);
        const late = start > view.promised ? (start - view.promised) * view.latePrice : 0;
        const value = option.cost + late + (next[then] === j ? second[then]! : first[then]!);
        if (value < through) through = value;
      }
      through += drive[row + k]!;
      if (through < best) {
        other = best;
        best = through;
        to = k;
      } else if (through < other) other = through;
    }
    const fell = best < first[cell]! - 1e-9;
    first[cell] = best;
    second[cell] = other;
    next[cell] = to;
    return fell;
  }
}
