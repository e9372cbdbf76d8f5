import type { Model } from '../../../lib/core/planning/model/model';
import { oneTreeBound } from './one-tree';

/**
 * Bound for vehicles that must serve everyone from one depot: driven one after another,
 * their routes are a tour of all places by shortest ways, so the tour's bound holds. Zero
 * where that does not apply (one-way roads, several depots).
 */
export function tourFloor(model: Model): number {
  const { places, shifts, drive } = model;
  const depot = shifts[0]?.startPlace;
  const oneDepot = depot === 0 && shifts.every((shift) => shift.startPlace === depot && shift.endPlace === depot);
  if (!oneDepot || model.jobs.length !== places - 1 || new Set(model.jobs.map((job) => job.place)).size !== places - 1) return 0;
  const ways = shortestWays(drive, places);
  let sum = 0;
  for (let i = 0; i < places; i++) {
    for (let j = 0; j < i; j++) if (Math.abs(ways[i * places + j]! - ways[j * places + i]!) > 1e-9) return 0;
    sum += ways[i * places + ((i + 1) % places)]!;
  }
  const { bound } = oneTreeBound(ways, places, sum);
  const dearest = Math.min(...model.jobs.map((job) => job.leave.cost(job.all)));
  return Math.max(0, Math.min(dearest, bound * (1 - 1e-9)));
}

/** Floyd and Warshall. */
function shortestWays(matrix: Float64Array, n: number): Float64Array {
  const ways = matrix.slice();
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const via = ways[i * n + k]! + ways[k * n + j]!;
        if (via < ways[i * n + j]!) ways[i * n + j] = via;
      }
  return ways;
}
