import { EPS, startAt, type Model } from '../model/model';
import type { Option } from './options';

/** Least reduced cost of finishing a route from a job, the work there ending at `finish` or later. */
export type Completion = (job: number, finish: number) => number;

/** Slices of the shift: finer is tighter but dearer. */
const SLICES = 256;
const MOST_SLICES = 1024;

/**
 * Completion bounds for pruning partial routes: a table over jobs and slices of time,
 * filled from the end of the shift backwards. Every finish is counted as the beginning of
 * its slice and only going straight back (a, b, a) is forbidden, so the bound is never too high.
 */
export function completionBounds(model: Model, shiftIndex: number, options: readonly (readonly Option[])[]): Completion {
  const shift = model.shifts[shiftIndex]!;
  const views = model.views[shiftIndex]!;
  const { time, drive, places, jobs } = model;
  const span = shift.hardTo - shift.from;
  if (!Number.isFinite(span) || span <= 0) return () => -Infinity;
  const active = [...jobs.keys()].filter((j) => options[j]!.length > 0);
  let shortestStep = Infinity;
  for (const j of active)
    for (const k of active)
      if (j !== k) shortestStep = Math.min(shortestStep, time[jobs[j]!.place * places + jobs[k]!.place]! + options[k]![0]!.minutes);
  const slices = Math.min(MOST_SLICES, Math.max(SLICES, Math.ceil(span / Math.max(1e-9, shortestStep))));
  const width = span / slices;
  const n = jobs.length;
  // Best way on, the job it goes to (−1 home), and the best that goes elsewhere.
  const first = new Float64Array(n * (slices + 1)).fill(Infinity);
  const second = new Float64Array(n * (slices + 1)).fill(Infinity);
  const next = new Int32Array(n * (slices + 1)).fill(-2);
  const slice = (at: number): number => Math.max(0, Math.min(slices, Math.floor((at - shift.from) / width)));

  const fill = (j: number, g: number): boolean => {
    const at = j * (slices + 1) + g;
    const clock = shift.from + g * width;
    const here = jobs[j]!.place * places;
    const before = first[at]!;
    let a = Infinity;
    let b = Infinity;
    let to = -2;
    const offer = (value: number, job: number): void => {
      if (job === to) a = Math.min(a, value);
      else if (value < a) [b, a, to] = [a, value, job];
      else if (value < b) b = value;
    };
    const home = clock + time[here + shift.endPlace]!;
    if (home <= shift.hardTo + EPS) offer(drive[here + shift.endPlace]! + Math.max(0, home - shift.to) * shift.overtimePrice, -1);
    for (const k of active) {
      if (k === j) continue;
      const view = views[k]!;
      const leg = here + jobs[k]!.place;
      for (const option of options[k]!) {
        const start = startAt(view, clock + time[leg]!, option.minutes);
        const finish = start + option.minutes;
        if (finish > shift.hardTo + EPS) break;
        const late = start > view.promised ? (start - view.promised) * view.latePrice : 0;
        const then = k * (slices + 1) + slice(finish);
        const rest = next[then] === j ? second[then]! : first[then]!;
        offer(drive[leg]! + option.cost + late + rest, k);
      }
    }
    [first[at], second[at], next[at]] = [a, b, to];
    return a < before - 1e-9;
  };

  for (let g = slices; g >= 0; g--) {
    // Steps shorter than a slice end in the slice they begin in: repeat until nothing moves.
    for (let round = 0; round < n; round++) {
      let moved = false;
      for (const j of active) moved = fill(j, g) || moved;
      if (!moved || shortestStep >= width) break;
    }
  }
  // A little slack for the rounding of many sums.
  return (job, finish) => first[job * (slices + 1) + slice(finish)]! - 1e-6;
}
