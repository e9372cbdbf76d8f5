import type { Model } from '../model/model';

/** Beyond this many items a job is not looked into and counts as nothing. */
const MOST_ITEMS = 10;

/**
 * A bound at once, before any linear program: every visit is entered and left, and half of
 * each of those two drives is its own. Job by job, the cheaper of leaving and visiting at
 * that price with the kindest day for every item.
 */
export function neighbourBound(model: Model): number {
  const { drive, places, jobs, shifts } = model;
  const ends = new Set(shifts.flatMap((shift) => [shift.startPlace, shift.endPlace]));
  let bound = 0;
  jobs.forEach((job, j) => {
    if (job.items > MOST_ITEMS) return;
    let enter = Infinity;
    let leave = Infinity;
    const look = (place: number): void => {
      enter = Math.min(enter, drive[place * places + job.place]!);
      leave = Math.min(leave, drive[job.place * places + place]!);
    };
    jobs.forEach((other, k) => k !== j && look(other.place));
    ends.forEach(look);
    let visit = Infinity;
    const item = new Array<number>(job.items).fill(Infinity);
    for (const views of model.views) {
      const view = views[j];
      if (!view) continue;
      visit = Math.min(visit, view.visitCost);
      for (let i = 0; i < job.items; i++) if ((view.allowed & (1 << i)) !== 0) item[i] = Math.min(item[i]!, view.itemCost[i]!);
    }
    const stop = visit + (enter + leave) / 2;
    let least = job.leave.cost(job.all);
    for (let set = job.all; set !== 0 && stop < least; set = (set - 1) & job.all) {
      const alone = stop + job.leave.cost(job.all & ~set);
      least = Math.min(
        least,
        item.reduce((cost, each, i) => ((set & (1 << i)) === 0 ? cost : cost + each), alone),
      );
    }
    bound += least;
  });
  return bound;
}
