import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ChebyshevCurve, clenshaw, chebyshevFit, findRoot, fitPiecewise, integrate, minimise, solveInPlace } from '@/lib/core/numerics';

describe('findRoot', () => {
  it('finds the root of any cubic with one inside', () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: 0.1, max: 3, noNaN: true }), (root, bend) => {
        const f = (x: number) => (x - root) * (1 + bend * (x - root) ** 2);
        const found = findRoot(f, -7, 6, { tolerance: 1e-12 });
        expect(found.status).toBe('converged');
        expect(found.value).toBeCloseTo(root, 10);
        expect(Math.abs(found.residual)).toBeLessThan(1e-9);
      }),
    );
  });

  it('says when there is no sign change, and when it runs out of steps', () => {
    expect(findRoot((x) => x * x + 1, -1, 1)).toMatchObject({ status: 'no_bracket', value: NaN });
    expect(findRoot((x) => x ** 9 - 1e-5, -1, 3, { tolerance: 1e-15, maxIterations: 3 }).status).toBe('not_converged');
    expect(findRoot((x) => (x < 0.5 ? -1 : x > 0.7 ? 1 : NaN), 0, 1).status).toBe('not_converged');
  });
});

describe('minimise', () => {
  it('finds the dip of a shifted quartic', () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 3, noNaN: true }), (at) => {
        const found = minimise((x) => (x - at) ** 2 + 0.1 * (x - at) ** 4, -4, 4.5);
        expect(found.status).toBe('converged');
        expect(found.value).toBeCloseTo(at, 6);
      }),
    );
  });

  it('works at the edge and reports running out', () => {
    expect(minimise((x) => x, 2, 5).value).toBeCloseTo(2, 5);
    expect(minimise((x) => x * x, -1, 2, { maxIterations: 2 }).status).toBe('not_converged');
  });
});

describe('integrate', () => {
  it('agrees with the antiderivative', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), fc.double({ min: 0.1, max: 5, noNaN: true }), (k, b) => {
        const found = integrate((x) => Math.cos(k * x), 0, b);
        expect(found.status).toBe('converged');
        expect(found.value).toBeCloseTo(Math.sin(k * b) / k, 9);
      }),
    );
  });

  it('takes a root singularity and gives up on a pole', () => {
    expect(integrate((x) => 1 / Math.sqrt(x), 0, 1).value).toBeCloseTo(2, 6);
    expect(integrate((x) => 1 / x, 0, 1, { maxPanels: 60 }).status).toBe('not_converged');
  });
});

describe('solveInPlace', () => {
  it('solves a system that needs pivoting', () => {
    const A = Float64Array.of(0, 2, 1, 1, 1, 0, 3, 0, 1);
    const b = Float64Array.of(7, 3, 6);
    expect(solveInPlace(A, b)).toBe(true);
    expect(Array.from(b)).toEqual([1, 2, 3].map((x) => expect.closeTo(x, 12)));
  });

  it('refuses a singular one', () => {
    expect(solveInPlace(Float64Array.of(1, 2, 2, 4), Float64Array.of(1, 2))).toBe(false);
  });
});

describe('Chebyshev expansions', () => {
  it('reproduce polynomials exactly', () => {
    const f = (x: number) => 3 - 2 * x + 0.5 * x ** 4;
    const c = chebyshevFit(f, 0, 3, 4);
    for (const x of [0, 0.4, 1.7, 3]) expect(clenshaw(c, (2 * x - 3) / 3)).toBeCloseTo(f(x), 12);
  });

  it('meet their tolerance, cutting the range where they must', () => {
    const f = (x: number) => Math.sqrt(x) + Math.sin(5 * x);
    const data = fitPiecewise(f, 0.001, 4, { tolerance: 1e-10 });
    expect(data.pieces.length).toBeGreaterThan(2);
    const curve = new ChebyshevCurve(data);
    for (let x = 0.001; x <= 4; x += 0.0137) expect(Math.abs(curve.value(x) - f(x))).toBeLessThan(1e-10);
  });

  it('give up aloud on what cannot be met', () => {
    expect(() => fitPiecewise((x) => (x > 1 / 3 ? 1 : 0), 0, 1, { tolerance: 1e-6 })).toThrow('No Chebyshev fit');
  });
});
