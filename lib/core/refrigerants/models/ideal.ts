import type { IdealTerms } from './equation';

/** The ideal-gas part without ln δ and without the reference constants: i0 = α⁰, i1 = τα⁰_τ, i2 = τ²α⁰_ττ. */
export class Ideal {
  i0 = 0;
  i1 = 0;
  i2 = 0;
  private tau = NaN;
  private readonly power: number[][];
  private readonly einstein: number[][];
  private readonly logTau: number;

  constructor(terms: IdealTerms, reducingT: number) {
    let logTau = terms.logTau;
    this.power = (terms.power ?? []).map((x) => [...x]);
    this.einstein = (terms.einstein ?? []).map((x) => [...x]);
    for (const [c, t] of (terms.cpPolynomial ?? []) as readonly (readonly [number, number])[]) {
      // cp0/R = 1 − τ²α⁰_ττ, so c·T^t integrates to these, up to constants that the reference state fixes.
      if (t === 0) logTau += c;
      else this.power.push([(-c * Math.pow(reducingT, t)) / (t * (t + 1)), -t]);
    }
    this.logTau = logTau;
  }

  setTau(tau: number): void {
    if (tau === this.tau) return;
    this.tau = tau;
    const ln = Math.log(tau);
    let i0 = this.logTau * ln;
    let i1 = this.logTau;
    let i2 = -this.logTau;
    for (const x of this.power) {
      const t = x[1]!;
      const v = x[0]! * Math.exp(t * ln);
      i0 += v;
      i1 += t * v;
      i2 += t * (t - 1) * v;
    }
    for (const x of this.einstein) {
      const u = x[1]! * tau;
      const e = Math.exp(-u);
      const q = e / (1 - e);
      i0 += x[0]! * Math.log1p(-e);
      i1 += x[0]! * u * q;
      i2 -= x[0]! * u * u * q * (1 + q);
    }
    this.i0 = i0;
    this.i1 = i1;
    this.i2 = i2;
  }
}
