import type { Outcome } from '../numerics';

/**
 * Root of an increasing function between lo and hi: Newton's steps from a good guess, with the bracket as safety
 * net. Fewer evaluations than a bracketing method when the guess is good, and f need not have numbers at the ends.
 * `tolerance` is on x.
 */
export function increasingRoot(
  f: (x: number) => number,
  bracket: { lo: number; hi: number; start: number; tolerance: number },
): Outcome {
  let { lo, hi } = bracket;
  const h = Math.max(1e-4, bracket.tolerance * 10);
  let x = bracket.start > lo && bracket.start < hi ? bracket.start : (lo + hi) / 2;
  let fx = NaN;
  for (let i = 1; i <= 100; i++) {
    fx = f(x);
    if (Number.isNaN(fx)) return { status: 'not_converged', value: x, residual: fx, iterations: i };
    if (fx > 0) hi = x;
    else lo = x;
    let next = x - ((fx * h) / (f(x + (x + h < bracket.hi ? h : -h)) - fx)) * (x + h < bracket.hi ? 1 : -1);
    if (!(next > lo && next < hi)) next = (lo + hi) / 2;
    const step = Math.abs(next - x);
    x = next;
    if (step < bracket.tolerance) {
      const atEnd = hi === bracket.hi || lo === bracket.lo;
      if (atEnd && hi - lo < 4 * bracket.tolerance)
        return { status: 'no_bracket', value: x, residual: fx, iterations: i };
      return { status: 'converged', value: x, residual: f(x), iterations: i };
    }
  }
  return { status: 'not_converged', value: x, residual: fx, iterations: 100 };
}
