import fc from 'fast-check';
import { expect, it } from 'vitest';
import { EQUATIONS } from '@/lib/core/refrigerants/data/equations';
import type { NonAnalyticTerm, ResidualTerms } from '@/lib/core/refrigerants/models/equation';
import { Residual } from '@/lib/core/refrigerants/models/residual';
import { RUNS } from './arbitrary';

// The product sums a published equation in groups, with its derivatives, for speed (`models/residual.ts`). Here it stands as
// printed, a term at a time, to be held against the papers by eye; the product must give the same number.

const sum = (terms: readonly (readonly number[])[] | undefined, one: (...term: number[]) => number): number =>
  (terms ?? []).reduce((total, term) => total + one(...term), 0);

/** αʳ(τ, δ): Span 2000, Multiparameter Equations of State, eq. 3.26 (power and Gaussian); Lemmon & Jacobsen 2005, J. Phys. Chem. Ref. Data 34, 69, eq. 15. */
function alphaR(eq: ResidualTerms, tau: number, delta: number): number {
  return (
    sum(eq.power, (n = 0, t = 0, d = 0, l = 0) => n * delta ** d * tau ** t * (l === 0 ? 1 : Math.exp(-(delta ** l)))) +
    sum(
      eq.gaussian,
      (n = 0, t = 0, d = 0, eta = 0, epsilon = 0, beta = 0, gamma = 0) =>
        n * delta ** d * tau ** t * Math.exp(-eta * (delta - epsilon) ** 2 - beta * (tau - gamma) ** 2),
    ) +
    sum(
      eq.lemmon,
      (n = 0, t = 0, d = 0, l = 0, m = 0) =>
        n * delta ** d * tau ** t * (l === 0 ? 1 : Math.exp(-(delta ** l))) * (m === 0 ? 1 : Math.exp(-(tau ** m))),
    ) +
    sum(eq.nonAnalytic, (...term) => critical(term, tau, delta))
  );
}

/** n·Δᵇ·δ·ψ: Span & Wagner 1996, J. Phys. Chem. Ref. Data 25, 1509, eq. 6.1. */
function critical([n = 0, a = 0, b = 0, beta = 0, A = 0, B = 0, C = 0, D = 0]: NonAnalyticTerm, tau: number, delta: number): number {
  const psi = Math.exp(-C * (delta - 1) ** 2 - D * (tau - 1) ** 2);
  const theta = 1 - tau + A * ((delta - 1) ** 2) ** (1 / (2 * beta));
  const Delta = theta ** 2 + B * ((delta - 1) ** 2) ** a;
  return n * Delta ** b * delta * psi;
}

it('sums what is printed', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.keys(EQUATIONS)),
      fc.double({ min: 0.75, max: 1.9, noNaN: true }),
      fc.double({ min: 0.02, max: 2.9, noNaN: true }),
      (id, tau, delta) => {
        const eq = EQUATIONS[id];
        if (!eq) throw new Error(id);
        const product = new Residual(eq);
        product.setTau(tau);
        product.evaluate(delta);
        const plain = alphaR(eq, tau, delta);
        expect(Math.abs(product.a00 - plain)).toBeLessThan(1e-10 * (1 + Math.abs(plain)));
      },
    ),
    RUNS,
  );
});

it('gives the slopes of what is printed', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.keys(EQUATIONS)),
      fc.double({ min: 0.8, max: 1.8, noNaN: true }),
      fc.double({ min: 0.05, max: 2.8, noNaN: true }),
      (id, tau, delta) => {
        const eq = EQUATIONS[id];
        if (!eq) throw new Error(id);
        fc.pre(!eq.nonAnalytic || Math.abs(delta - 1) > 0.05);
        const product = new Residual(eq);
        product.setTau(tau);
        product.evaluate(delta);
        const h = 1e-4;
        const f = (t: number, d: number) => alphaR(eq, tau * (1 + t * h), delta * (1 + d * h));
        const scale = 1 + Math.max(...[product.a00, product.a01, product.a02, product.a10, product.a20, product.a11].map(Math.abs));
        const close = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(3e-5 * scale);
        close(product.a01, (f(0, 1) - f(0, -1)) / (2 * h));
        close(product.a10, (f(1, 0) - f(-1, 0)) / (2 * h));
        close(product.a02, (f(0, 1) - 2 * f(0, 0) + f(0, -1)) / (h * h));
        close(product.a20, (f(1, 0) - 2 * f(0, 0) + f(-1, 0)) / (h * h));
        close(product.a11, (f(1, 1) - f(1, -1) - f(-1, 1) + f(-1, -1)) / (4 * h * h));
      },
    ),
    RUNS,
  );
});
