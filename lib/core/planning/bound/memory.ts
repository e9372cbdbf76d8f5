import type { Model } from '../model/model';

/** Bit masks (32 jobs a word) of the jobs each job remembers: itself and its `size` − 1 nearest. */
export function nearMemory(model: Model, near: readonly Int32Array[], size: number): Int32Array[] {
  const words = (model.jobs.length + 31) >>> 5;
  return near.map((order) => {
    const mask = new Int32Array(words);
    for (const job of order.subarray(0, size)) mask[job >>> 5]! |= 1 << (job & 31);
    return mask;
  });
}
