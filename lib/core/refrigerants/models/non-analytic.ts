import type { NonAnalyticTerm } from './equation';

export type ResidualSums = { a00: number; a01: number; a02: number; a10: number; a20: number; a11: number };

/**
 * Adds a critical term n·Δ^b·δ·ψ and its reduced derivatives to the sums.
 * Source: Span & Wagner 1996, J. Phys. Chem. Ref. Data 25, 1509, table 32.
 */
export function addNonAnalytic(term: NonAnalyticTerm, tau: number, delta: number, out: ResidualSums): void {
  const [n, a, b, beta, A, B, C, D] = term as readonly [number, number, number, number, number, number, number, number];
  // The critical density itself is a removable singularity: step off it by less than any result can show.
  const x = Math.abs(delta - 1) < 1e-10 ? 1e-10 : delta - 1;
  const x2 = x * x;
  const y = tau - 1;
  const k = 1 / (2 * beta);
  const theta = -y + A * Math.pow(x2, k);
  const Delta = theta * theta + B * Math.pow(x2, a);
  const psi = Math.exp(-C * x2 - D * y * y);
  const psiD = -2 * C * x * psi;
  const psiDD = (2 * C * x2 - 1) * 2 * C * psi;
  const psiT = -2 * D * y * psi;
  const psiTT = (2 * D * y * y - 1) * 2 * D * psi;
  const psiDT = 4 * C * D * x * y * psi;

  const slope = A * theta * (2 / beta) * Math.pow(x2, k - 1) + 2 * B * a * Math.pow(x2, a - 1);
  const DeltaD = x * slope;
  const DeltaDD =
    slope +
    x2 *
      (4 * B * a * (a - 1) * Math.pow(x2, a - 2) +
        2 * A * A * Math.pow(Math.pow(x2, k - 1) / beta, 2) +
        A * theta * (4 / beta) * (k - 1) * Math.pow(x2, k - 2));
  const P = Math.pow(Delta, b);
  const P1 = b * Math.pow(Delta, b - 1);
  const P2 = b * (b - 1) * Math.pow(Delta, b - 2);
  const PD = P1 * DeltaD;
  const PDD = P1 * DeltaDD + P2 * DeltaD * DeltaD;
  const PT = -2 * theta * P1;
  const PTT = 2 * P1 + 4 * theta * theta * P2;
  const PDT = -A * b * (2 / beta) * Math.pow(Delta, b - 1) * x * Math.pow(x2, k - 1) - 2 * theta * P2 * DeltaD;

  out.a00 += n * P * delta * psi;
  out.a01 += n * delta * (P * (psi + delta * psiD) + PD * delta * psi);
  out.a02 += n * delta * delta * (P * (2 * psiD + delta * psiDD) + 2 * PD * (psi + delta * psiD) + PDD * delta * psi);
  out.a10 += n * tau * delta * (PT * psi + P * psiT);
  out.a20 += n * tau * tau * delta * (PTT * psi + 2 * PT * psiT + P * psiTT);
  out.a11 += n * delta * tau * (P * (psiT + delta * psiDT) + delta * PD * psiT + PT * (psi + delta * psiD) + PDT * delta * psi);
}
