import { normalCdf } from './special';

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

export function mixtureCdf({ weights, means, sds }: Mixture, x: number): number {
  let p = 0;
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i] as number;
    if (w > 1e-9) p += w * normalCdf((x - (means[i] as number)) / (sds[i] as number));
  }
  return p;
}

/** The point below which the share `p` lies: Newton steps kept inside a shrinking bracket. */
export function mixtureQuantile(m: Mixture, p: number, start: { mean: number; sd: number }): number {
  const { mean, sd } = start;
  if (!(sd > 1e-12)) return mean;
  let low = mean - 12 * sd;
  let high = mean + 12 * sd;
  let x = mean + sd * (p < 0.5 ? -1.28 : p > 0.5 ? 1.28 : 0);
  for (let step = 0; step < 40; step++) {
    const h = 1e-3 * sd;
    const at = mixtureCdf(m, x) - p;
    if (Math.abs(at) < 1e-5) break;
    if (at > 0) high = x;
    else low = x;
    const slope = (mixtureCdf(m, x + h) - p - at) / h;
    const next = x - at / slope;
    x = next > low && next < high ? next : (low + high) / 2;
  }
  return x;
}
