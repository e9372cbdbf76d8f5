import { scaledTail } from './special';

/** A weighted sum of normals, as parallel arrays; weights sum to 1. */
export type Mixture = { weights: ArrayLike<number>; means: ArrayLike<number>; sds: ArrayLike<number> };

export function mixtureMoments({ weights, means, sds }: Mixture): { mean: number; sd: number } {
  let mean = 0;
  let square = 0;
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i] as number;
    const m = means[i] as number;
    mean += w * m;
    square += w * (m * m + (sds[i] as number) ** 2);
  }
  return { mean, sd: Math.sqrt(Math.max(square - mean * mean, 0)) };
}

/** The point below which the share `p` lies, to `within` of share: Newton steps kept inside a shrinking bracket. */
export function mixtureQuantile({ weights, means, sds }: Mixture, p: number, start: { mean: number; sd: number }, within = 1e-4): number {
  const { mean, sd } = start;
  if (!(sd > 1e-12)) return mean;
  let low = mean - 12 * sd;
  let high = mean + 12 * sd;
  let x = mean + sd * 1.28 * Math.sign(p - 0.5);
  for (let step = 0; step < 60; step++) {
    // Share below x and density at x, from one exponential for each normal.
    let off = -p;
    let slope = 0;
    for (let i = 0; i < weights.length; i++) {
      const w = weights[i] as number;
      if (w < 1e-7) continue;
      const z = (x - (means[i] as number)) / (sds[i] as number);
      const size = z < 0 ? -z : z;
      if (size > 9) {
        if (z > 0) off += w;
        continue;
      }
      const e = Math.exp(-0.5 * size * size);
      const tail = e * scaledTail(size);
      off += w * (z > 0 ? 1 - tail : tail);
      slope += (w * e * 0.3989422804014327) / (sds[i] as number);
    }
    if (off < within && off > -within) break;
    if (off > 0) high = x;
    else low = x;
    const next = x - off / slope;
    x = next > low && next < high ? next : (low + high) / 2;
  }
  return x;
}
