import type { Model } from '../model/model';
import { neighbours } from '../search/ruin';
import type { Column } from './master';

/**
 * What each job remembers of the jobs before it, as bit masks of 32 jobs a word. A route
 * may come back to a job only where some job in between has forgotten it.
 */
export type Memory = Int32Array[];

/** Every job remembers itself and its nearest, `size` in all. */
export function nearMemory(model: Model, size: number): Memory {
  const setWords = (model.jobs.length + 31) >>> 5;
  return neighbours(model).map((order) => {
    const mask = new Int32Array(setWords);
    for (const job of order.subarray(0, size)) mask[job >>> 5]! |= 1 << (job & 31);
    return mask;
  });
}

/** May this memory drive the route? */
export function remembers(memory: Memory, jobs: readonly number[]): boolean {
  const seen = new Set<number>();
  for (const job of jobs) {
    if (seen.has(job)) return false;
    for (const other of seen) if ((memory[job]![other >>> 5]! & (1 << (other & 31))) === 0) seen.delete(other);
    seen.add(job);
  }
  return true;
}

/**
 * Makes the jobs inside every returning loop remember the job it returns to ("dynamic
 * ng-route relaxation", Roberti & Mingozzi 2014, Transportation Science 48(3):413–424).
 * False if no route returns anywhere: then nothing is left to gain.
 */
export function widenMemory(memory: Memory, columns: readonly Column[]): boolean {
  let widened = false;
  for (const { jobs } of columns) {
    const last = new Map<number, number>();
    jobs.forEach((job, p) => {
      const before = last.get(job);
      last.set(job, p);
      if (before === undefined) return;
      for (let between = before + 1; between < p; between++) memory[jobs[between]!]![job >>> 5]! |= 1 << (job & 31);
      widened = true;
    });
  }
  return widened;
}
