import { describe, expect, it } from 'vitest';
import { clenshaw, ChebyshevCurve, findRoot, fitPiecewise, integrate, shareInterval, solveInPlace } from '@/lib/core/numerics'; // prettier-ignore
import { groupBy } from '@/lib/core/numerics/group-by';
import { mustGet } from '@/lib/core/numerics/must-get';
import { meanInterval } from '@/lib/core/numerics/proportion';

const Z95 = 1.959963984540054;

describe('the interval of a share (Wilson)', () => {
  // Its ends solve (p − hits/n)² = z²·p·(1 − p)/n: the score test turned round, which is how Wilson found them.
  it.each([[1, 10], [5, 10], [9, 10], [37, 60], [3, 4]])('%i of %i: both ends are just as far as the test allows', (hits, n) => {
    const { value, lo, hi } = shareInterval(hits, n) ?? expect.fail('no interval');
    expect(value).toBe(hits / n);
    expect(lo).toBeLessThan(value);
    expect(hi).toBeGreaterThan(value);
    for (const end of [lo, hi]) expect((end - value) ** 2).toBeCloseTo((Z95 ** 2 * end * (1 - end)) / n, 12);
  }); // prettier-ignore

  it('of none and of all ends at the edge: z²/(n + z²) from it', () => {
    expect(shareInterval(0, 10)).toEqual({ value: 0, lo: 0, hi: expect.closeTo(Z95 ** 2 / (10 + Z95 ** 2), 12) });
    expect(shareInterval(10, 10)).toEqual({ value: 1, lo: expect.closeTo(10 / (10 + Z95 ** 2), 12), hi: expect.closeTo(1, 12) });
    expect(shareInterval(0, 0)).toBeNull();
    expect(shareInterval(1, 1)).not.toBeNull();
  });
});

describe('the interval of a mean', () => {
  it('is its spread over the root of n: 2, 4, 9 by hand', () => {
    // Mean 5, squares 101: variance (101 − 75)/2 = 13.
    const half = 2 * Math.sqrt(13 / 3);
    expect(meanInterval(3, 15, 101, 2)).toEqual({ value: 5, lo: expect.closeTo(5 - half, 12), hi: expect.closeTo(5 + half, 12) });
  });
  it('has no width where all are alike, and is none of one', () => {
    expect(meanInterval(2, 6, 18, 2)).toEqual({ value: 3, lo: 3, hi: 3 });
    expect(meanInterval(1, 3, 9, 2)).toBeNull();
    expect(meanInterval(3, 0.3, 0.03, 2)?.lo).toBeCloseTo(0.1, 6);
  });
});

describe('systems of equations', () => {
  // Rows in every order of one system with the answer 1, −2, 3, 0.5, sums done by hand into the right side.
  const rows = [[4, 1, 0, 2], [0, 3, 1, 0], [1, 0, 5, -2], [2, -1, 0, 4]]; // prettier-ignore
  const answer = [1, -2, 3, 0.5];
  it.each([[0, 1, 2, 3], [3, 2, 1, 0], [1, 0, 3, 2], [2, 3, 0, 1], [1, 2, 3, 0]])('are solved with their rows as %i %i %i %i', (...order) => {
    const A = Float64Array.from(order.flatMap((i) => rows[i] ?? []));
    const b = Float64Array.from(order.map((i) => (rows[i] ?? []).reduce((sum, a, j) => sum + a * (answer[j] ?? 0), 0)));
    expect(solveInPlace(A, b)).toBe(true);
    expect(Array.from(b)).toEqual(answer.map((x) => expect.closeTo(x, 12)));
  }); // prettier-ignore

  it('keep their digits where a small number stands first', () => {
    const b = Float64Array.of(1, 2);
    expect(solveInPlace(Float64Array.of(1e-20, 1, 1, 1), b)).toBe(true);
    expect(Array.from(b)).toEqual([expect.closeTo(1, 12), expect.closeTo(1, 12)]);
  });

  it('are refused where a row is nothing, or no number', () => {
    expect(solveInPlace(Float64Array.of(0, 0, 0, 0), Float64Array.of(0, 0))).toBe(false);
    expect(solveInPlace(Float64Array.of(NaN, 0, 0, 1), Float64Array.of(1, 1))).toBe(false);
    expect(solveInPlace(Float64Array.of(1, 0, 0, 1), Float64Array.of(NaN, 1))).toBe(false);
  });
});

describe('methods that need few steps need no more', () => {
  const counted = (f: (x: number) => number) => {
    let calls = 0;
    return { f: (x: number) => (calls++, f(x)), calls: () => calls };
  };
  it('a line’s root, a root at either end, and a smooth one', () => {
    const line = counted((x) => 2 * x - 1);
    expect(findRoot(line.f, 0, 3)).toMatchObject({ status: 'converged', value: expect.closeTo(0.5, 9) });
    expect(line.calls()).toBeLessThanOrEqual(5);
    expect(findRoot((x) => x, 0, 1)).toMatchObject({ status: 'converged', value: 0, residual: 0 });
    expect(findRoot((x) => x - 1, 0, 1)).toMatchObject({ status: 'converged', value: 1, residual: 0 });
    // Halving alone would take 33.
    const cubic = counted((x) => x * x * x - 2 * x - 5);
    expect(findRoot(cubic.f, 0, 4).value).toBeCloseTo(2.0945514815423265, 9);
    expect(cubic.calls()).toBeLessThan(15);
  });

  it('a polynomial’s area in one panel: the rule is exact to degree 22', () => {
    const found = integrate((x) => 5 * x ** 4 - 3 * x ** 2 + 1, -1, 2);
    expect(found).toMatchObject({ status: 'converged', iterations: 1 });
    expect(found.value).toBeCloseTo(33 - 9 + 3, 10);
  });
});

describe('expansions', () => {
  it('of T₀ to T₃ are the polynomials themselves', () => {
    for (const x of [-1, -0.3, 0, 0.8, 1]) {
      expect([0, 1, 2, 3].map((k) => clenshaw([0, 1, 2, 3].map((j) => Number(j === k)), x))).toEqual([1, x, 2 * x * x - 1, 4 * x ** 3 - 3 * x].map((t) => expect.closeTo(t, 12))); // prettier-ignore
    }
  });
  it('drop what a constant and a line do not need, and join where they meet', () => {
    expect(fitPiecewise(() => 3, 0, 2, { tolerance: 1e-6 })).toEqual({ knots: [0, 2], pieces: [[expect.closeTo(3, 12)]] });
    expect(fitPiecewise((x) => 3 + x, 0, 2, { tolerance: 1e-6 }).pieces).toEqual([[expect.closeTo(4, 12), expect.closeTo(1, 12)]]);
    const curve = new ChebyshevCurve({ knots: [0, 1, 3], pieces: [[1], [2, 1]] });
    expect([0, 1, 1.5, 2, 3].map((x) => curve.value(x))).toEqual([1, 1, 1.5, 2, 3]);
  });
});

describe('groups', () => {
  it('keep their order and say which key is missing', () => {
    const groups = groupBy([3, 1, 4, 1, 5], (x) => x % 2);
    expect([...groups]).toEqual([[1, [3, 1, 1, 5]], [0, [4]]]); // prettier-ignore
    expect(mustGet(groups, 0)).toEqual([4]);
    expect(() => mustGet(groups, 7)).toThrow('nothing is known under 7');
  });
});
