import { normalCdf } from '../bands';

/** A weighted mixture of normals with unequal halves: what a figure comes to under each hypothesis. */
export type Part = { weight: number; value: number; down: number; up: number };

function below(parts: readonly Part[], x: number): number {
  let p = 0;
  for (const { weight, value, down, up } of parts) {
    const d = x < value ? down : up;
    p += weight * (d > 0 ? normalCdf((x - value) / d) : x >= value ? 1 : 0);
  }
  return p;
}

/** Quantile of a mixture, by bisection; weights sum to one. */
export function quantile(parts: readonly Part[], p: number): number {
  let lo = Infinity;
  let hi = -Infinity;
  for (const { value, down, up } of parts) {
    lo = Math.min(lo, value - 5 * down);
    hi = Math.max(hi, value + 5 * up);
  }
  for (let i = 0; i < 40 && hi - lo > 1e-5 * Math.max(1, Math.abs(hi)); i++) {
    const mid = (lo + hi) / 2;
    if (below(parts, mid) < p) lo = mid;
    else hi = mid;
  }
  return (lo + hi) / 2;
}
