import type { BinaryPair } from '../data/mixtures/pairs';
import type { FluidEquation } from './equation';

type Cross = { i: number; j: number; cT: number; bT: number; cV: number; bV: number };

/**
 * Reducing temperature and molar volume of a mixture and their derivatives with respect to each mole fraction.
 * Source: Kunz & Wagner 2012, J. Chem. Eng. Data 57, 3032, eqs. 16–17 and their appendix.
 */
export class Reducing {
  /** K, m³/mol at the composition last set. */
  T = NaN;
  v = NaN;
  /** n·∂T_r/∂n_i and n·∂v_r/∂n_i. */
  readonly nT: Float64Array;
  readonly nV: Float64Array;
  private readonly Ti: number[];
  private readonly vi: number[];
  private readonly cross: Cross[];

  constructor(components: readonly FluidEquation[], pairs: readonly BinaryPair[]) {
    this.Ti = components.map((c) => c.reducing.T);
    this.vi = components.map((c) => 1 / c.reducing.rho);
    this.nT = new Float64Array(components.length);
    this.nV = new Float64Array(components.length);
    this.cross = [];
    for (let i = 0; i < components.length; i++)
      for (let j = i + 1; j < components.length; j++) this.cross.push(this.crossTerm(components, pairs, i, j));
  }

  private crossTerm(components: readonly FluidEquation[], pairs: readonly BinaryPair[], i: number, j: number): Cross {
    const [T1, T2, v1, v2] = [this.Ti[i]!, this.Ti[j]!, this.vi[i]!, this.vi[j]!];
    const pair = pairOf(pairs, components[i]!.id, components[j]!.id);
    const swapped = pair.first !== components[i]!.id;
    const vCross = Math.pow(Math.cbrt(v1) + Math.cbrt(v2), 3) / 8;
    if (pair.xi !== undefined && pair.zeta !== undefined) return { i, j, cT: T1 + T2 + pair.xi, bT: 1, cV: v1 + v2 + pair.zeta, bV: 1 };
    const bT = swapped ? 1 / pair.betaT! : pair.betaT!;
    const bV = swapped ? 1 / pair.betaV! : pair.betaV!;
    return { i, j, cT: 2 * bT * pair.gammaT! * Math.sqrt(T1 * T2), bT, cV: 2 * bV * pair.gammaV! * vCross, bV };
  }

  setComposition(x: ArrayLike<number>): void {
    const { Ti, vi, nT, nV } = this;
    let T = 0;
    let v = 0;
    for (let i = 0; i < Ti.length; i++) {
      T += x[i]! * x[i]! * Ti[i]!;
      v += x[i]! * x[i]! * vi[i]!;
      nT[i] = 2 * x[i]! * Ti[i]!;
      nV[i] = 2 * x[i]! * vi[i]!;
    }
    for (const { i, j, cT, bT, cV, bV } of this.cross) {
      T += cT * addCross(x, i, j, bT, cT, nT);
      v += cV * addCross(x, i, j, bV, cV, nV);
    }
    let sumT = 0;
    let sumV = 0;
    for (let i = 0; i < Ti.length; i++) {
      sumT += x[i]! * nT[i]!;
      sumV += x[i]! * nV[i]!;
    }
    for (let i = 0; i < Ti.length; i++) {
      nT[i]! -= sumT;
      nV[i]! -= sumV;
    }
    this.T = T;
    this.v = v;
  }
}

/** f = x_i·x_j·(x_i + x_j)/(β²x_i + x_j); adds c·∂f/∂x to the slopes of i and j. */
function addCross(x: ArrayLike<number>, i: number, j: number, beta: number, c: number, slopes: Float64Array): number {
  const xi = x[i]!;
  const xj = x[j]!;
  const sum = xi + xj;
  if (sum === 0) return 0;
  const b2 = beta * beta;
  const D = b2 * xi + xj;
  slopes[i]! += (c * xj * (sum + xi - (xi * b2 * sum) / D)) / D;
  slopes[j]! += (c * xi * (sum + xj - (xj * sum) / D)) / D;
  return (xi * xj * sum) / D;
}

export function pairOf(pairs: readonly BinaryPair[], a: string, b: string): BinaryPair {
  const pair = pairs.find((p) => (p.first === a && p.second === b) || (p.first === b && p.second === a));
  if (!pair) throw new Error(`No binary parameters for ${a} with ${b}`);
  return pair;
}
