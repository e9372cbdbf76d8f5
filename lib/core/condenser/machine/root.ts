import type { Outcome } from '../../numerics';

/**
 * Root of an increasing function between lo and hi: secant steps from a good guess, with the bracket as safety net.
 * Fewer evaluations than a bracketing method when the guess is good, and f need not have numbers at the ends.
 * `tolerance` is on x.
 */
// eslint-disable-next-line complexity -- one loop of secant and bisection whose whole state turns at every step
export function increasingRoot(f: (x: number) => number, bracket: { lo: number; hi: number; start: number; tolerance: number }): Outcome {
  let { lo, hi } = bracket;
  const first = Math.min(0.05, (hi - lo) / 8);
  let x = bracket.start > lo && bracket.start < hi ? bracket.start : (lo + hi) / 2;
  let fx = f(x);
  let before = x;
  let fBefore = NaN;
  let width = hi - lo;
  for (let i = 1; i <= 100; i++) {
    if (Number.isNaN(fx)) return { status: 'not_converged', value: x, residual: fx, iterations: i };
    if (fx > 0) hi = x;
    else lo = x;
    let next = Number.isNaN(fBefore) ? x + (fx > 0 ? -first : first) : x - (fx * (x - before)) / (fx - fBefore);
    // Every third step must at least have halved the bracket, or it is halved outright.
    const slow = i % 3 === 0 && hi - lo > width / 2 && Math.abs(next - x) > first;
    if (i % 3 === 0) width = hi - lo;
    if (slow || !(next > lo && next < hi)) next = (lo + hi) / 2;
    const step = Math.abs(next - x);
    if (fx === 0 || (step < bracket.tolerance && i > 1)) return settled(f, bracket, { lo, hi, x: fx === 0 ? x : next, i });
    before = x;
    fBefore = fx;
    x = next;
    fx = f(x);
  }
  return { status: 'not_converged', value: x, residual: fx, iterations: 100 };
}

type Bracket = { lo: number; hi: number; tolerance: number };

function settled(f: (x: number) => number, from: Bracket, at: { lo: number; hi: number; x: number; i: number }): Outcome {
  const untouched = at.lo === from.lo || at.hi === from.hi;
  const status = untouched && at.hi - at.lo < 4 * from.tolerance ? 'no_bracket' : 'converged';
  return { status, value: at.x, residual: f(at.x), iterations: at.i };
}
