import type { Outcome } from './outcome';

const GOLDEN = 0.3819660112501051;

/**
 * Minimum of f between a and b, if f has one dip there: Brent's parabolic and golden-section method
 * (Brent 1973, ch. 5). The value is the argument; the residual is the remaining half width.
 */
// eslint-disable-next-line complexity -- Brent's loop as it is published: its state changes as a whole at every step
export function minimise(
  f: (x: number) => number,
  a: number,
  b: number,
  options: { tolerance?: number; maxIterations?: number } = {},
): Outcome {
  let [lo, hi] = [Math.min(a, b), Math.max(a, b)];
  const tolerance = options.tolerance ?? 1e-8 * (hi - lo);
  const limit = options.maxIterations ?? 200;
  let x = lo + GOLDEN * (hi - lo);
  let [w, v] = [x, x];
  let fx = f(x);
  let [fw, fv] = [fx, fx];
  let step = 0;
  let before = 0;
  for (let i = 1; i <= limit; i++) {
    const middle = (lo + hi) / 2;
    const tol = Math.sqrt(Number.EPSILON) * Math.abs(x) * 1e-2 + tolerance / 3;
    if (Math.abs(x - middle) <= 2 * tol - (hi - lo) / 2) return { status: 'converged', value: x, residual: (hi - lo) / 2, iterations: i };
    let parabolic = false;
    if (Math.abs(before) > tol) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      parabolic = Math.abs(p) < Math.abs(0.5 * q * before) && p > q * (lo - x) && p < q * (hi - x);
      before = step;
      if (parabolic) {
        step = p / q;
        const u = x + step;
        if (u - lo < 2 * tol || hi - u < 2 * tol) step = x < middle ? tol : -tol;
      }
    }
    if (!parabolic) {
      before = (x < middle ? hi : lo) - x;
      step = GOLDEN * before;
    }
    const u = x + (Math.abs(step) >= tol ? step : Math.sign(step) * tol);
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) hi = x;
      else lo = x;
      [v, w, x] = [w, x, u];
      [fv, fw, fx] = [fw, fx, fu];
    } else {
      if (u < x) lo = u;
      else hi = u;
      if (fu <= fw || w === x) {
        [v, w] = [w, u];
        [fv, fw] = [fw, fu];
      } else if (fu <= fv || v === x || v === w) {
        [v, fv] = [u, fu];
      }
    }
  }
  return { status: 'not_converged', value: x, residual: (hi - lo) / 2, iterations: limit };
}
