import type { Outcome } from './outcome';

export type RootOptions = {
  /** Absolute tolerance on the argument; 1e-10 of the bracket where not given. */
  tolerance?: number;
  maxIterations?: number;
};

/**
 * Root of f between a and b, where f must change sign: Brent's method (Brent 1973, Algorithms for Minimization
 * without Derivatives, ch. 4). The residual is f at the value.
 */
// eslint-disable-next-line complexity -- Brent's loop as it is published: its state changes as a whole at every step
export function findRoot(f: (x: number) => number, a: number, b: number, options: RootOptions = {}): Outcome {
  const tolerance = options.tolerance ?? 1e-10 * Math.abs(b - a);
  let [x0, x1] = [a, b];
  let [f0, f1] = [f(x0), f(x1)];
  if (!(f0 * f1 <= 0)) return { status: 'no_bracket', value: NaN, residual: NaN, iterations: 0 };
  let [x2, f2] = [x0, f0];
  let step = x1 - x0;
  let before = step;
  for (let i = 1; i <= (options.maxIterations ?? 100); i++) {
    if (f1 * f2 > 0) {
      [x2, f2] = [x0, f0];
      step = before = x1 - x0;
    }
    if (Math.abs(f2) < Math.abs(f1)) {
      [x0, x1, x2] = [x1, x2, x1];
      [f0, f1, f2] = [f1, f2, f1];
    }
    const tol = 2 * Number.EPSILON * Math.abs(x1) + 0.5 * tolerance;
    const half = (x2 - x1) / 2;
    if (Math.abs(half) <= tol || f1 === 0) return { status: 'converged', value: x1, residual: f1, iterations: i };
    if (Math.abs(before) >= tol && Math.abs(f0) > Math.abs(f1)) {
      const [p, q] = interpolation(x0, x1, x2, f0, f1, f2, half);
      const accept = 2 * p < Math.min(3 * half * q - Math.abs(tol * q), Math.abs(before * q));
      before = accept ? step : half;
      step = accept ? p / q : half;
    } else {
      before = step = half;
    }
    [x0, f0] = [x1, f1];
    x1 += Math.abs(step) > tol ? step : Math.sign(half) * tol;
    f1 = f(x1);
    if (Number.isNaN(f1)) break;
  }
  return { status: 'not_converged', value: x1, residual: f1, iterations: options.maxIterations ?? 100 };
}

/** Secant or inverse quadratic step p/q from x1, p ≥ 0. */
function interpolation(x0: number, x1: number, x2: number, f0: number, f1: number, f2: number, half: number): [number, number] {
  const s = f1 / f0;
  let p: number;
  let q: number;
  if (x0 === x2) {
    p = 2 * half * s;
    q = 1 - s;
  } else {
    const r = f1 / f2;
    const t = f0 / f2;
    p = s * (2 * half * t * (t - r) - (x1 - x0) * (r - 1));
    q = (t - 1) * (r - 1) * (s - 1);
  }
  return p > 0 ? [p, -q] : [-p, q];
}
