import { solveInPlace } from '../../numerics/linear';
import { ancillaryValue } from '../models/ancillary';
import { MIXTURE_R } from '../models/gas-constant';
import type { Mixture } from '../models/mixture';

export type Branch = 'bubble' | 'dew';

/** A two-phase boundary of a mixture: the fixed phase has the overall composition, the other one is incipient. */
export type BoundaryPoint = {
  status: 'converged' | 'not_converged';
  T: number;
  /** Pa */
  p: number;
  /** mol/m³ */
  rhoL: number;
  rhoV: number;
  /** Mole fractions of the incipient phase. */
  other: Float64Array;
  iterations: number;
  /** Largest mismatch: relative in pressure, absolute in ln f and in the sum of mole fractions. */
  residual: number;
};

/**
 * Bubble or dew point at T (K) by Newton's method in ln K_i, ln ρ_L and ln ρ_V: equal fugacities, equal pressure,
 * mole fractions that sum to one. Needs a start from `firstGuess` or a neighbouring point.
 */
export function boundaryPoint(
  mixture: Mixture,
  z: Float64Array,
  branch: Branch,
  T: number,
  start: { rhoL: number; rhoV: number; other: Float64Array },
): BoundaryPoint {
  const n = z.length;
  const size = n + 2;
  const u = new Float64Array(size);
  for (let i = 0; i < n; i++) u[i] = Math.log(start.other[i]! / z[i]!);
  u[n] = Math.log(start.rhoL);
  u[n + 1] = Math.log(start.rhoV);
  const other = new Float64Array(n);
  const value = new Float64Array(size);
  let p = NaN;

  const equations = (v: Float64Array, out: Float64Array): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += other[i] = z[i]! * Math.exp(v[i]!);
    const fixed = branch === 'bubble' ? Math.exp(v[n]!) : Math.exp(v[n + 1]!);
    const moving = branch === 'bubble' ? Math.exp(v[n + 1]!) : Math.exp(v[n]!);
    // The incipient phase is evaluated at normalised fractions, so that only the last equation knows their sum.
    const y = other.map((x) => x / sum);
    const pFixed = mixture.evaluate(T, fixed, z);
    for (let i = 0; i < n; i++) out[i] = mixture.fugacity[i]! + Math.log(fixed);
    const pMoving = mixture.evaluate(T, moving, y);
    for (let i = 0; i < n; i++) out[i]! -= mixture.fugacity[i]! + Math.log(moving) + v[i]!;
    const scale = MIXTURE_R * T * Math.exp(v[n + 1]!);
    out[n] = (pFixed - pMoving) / scale;
    out[n + 1] = sum - 1;
    return branch === 'bubble' ? pMoving : pFixed;
  };

  let residual = Infinity;
  let iterations = 0;
  const jacobian = new Float64Array(size * size);
  const shifted = new Float64Array(size);
  const step = new Float64Array(size);
  let settled = 0;
  for (iterations = 1; iterations <= 80; iterations++) {
    p = equations(u, value);
    residual = value.reduce((worst, x) => Math.max(worst, Math.abs(x)), 0);
    if (!Number.isFinite(residual)) break;
    for (let j = 0; j < size; j++) {
      const keep = u[j]!;
      u[j] = keep + 1e-7;
      equations(u, shifted);
      for (let i = 0; i < size; i++) jacobian[i * size + j] = (shifted[i]! - value[i]!) / 1e-7;
      u[j] = keep;
    }
    for (let i = 0; i < size; i++) step[i] = -value[i]!;
    if (!solveInPlace(jacobian, step)) break;
    const largest = step.reduce((worst, x) => Math.max(worst, Math.abs(x)), 0);
    const damp = Math.min(1, 0.4 / largest);
    for (let i = 0; i < size; i++) u[i]! += damp * step[i]!;
    // Differences make the slope good to about 1e-7, so a step this small is followed by one below rounding.
    if (largest < 1e-9 && ++settled >= 2) break;
  }
  p = equations(u, value);
  residual = value.reduce((worst, x) => Math.max(worst, Math.abs(x)), 0);
  const rhoL = Math.exp(u[n]!);
  const rhoV = Math.exp(u[n + 1]!);
  const apart = Math.abs(Math.log(rhoL / rhoV)) > 1e-4 && rhoL > rhoV;
  return {
    status: residual < 1e-9 && apart && p > 0 ? 'converged' : 'not_converged',
    T,
    p,
    rhoL,
    rhoV,
    other: other.slice(),
    iterations,
    residual,
  };
}

/** Ideal-solution start (Raoult), good well below the critical point. */
export function firstGuess(mixture: Mixture, z: Float64Array, branch: Branch, T: number) {
  const pure = mixture.components.map((c) => {
    const { p, rhoL } = c.ancillaries;
    const below = Math.min(T, 0.98 * c.critical.T);
    const pressure = p ? ancillaryValue(p, below) : NaN;
    // Above its own critical temperature a component is extrapolated along ln p against 1/T.
    return { p: pressure * Math.exp(7 * c.critical.T * (1 / below - 1 / T)), v: 1 / ancillaryValue(rhoL, below) };
  });
  const other = new Float64Array(z.length);
  let p = 0;
  if (branch === 'bubble') pure.forEach((c, i) => (p += z[i]! * c.p));
  else p = 1 / pure.reduce((sum, c, i) => sum + z[i]! / c.p, 0);
  pure.forEach((c, i) => (other[i] = branch === 'bubble' ? (z[i]! * c.p) / p : (z[i]! * p) / c.p));
  const liquid = branch === 'bubble' ? z : other;
  const volume = pure.reduce((sum, c, i) => sum + liquid[i]! * c.v, 0);
  return { rhoL: 1 / volume, rhoV: p / (MIXTURE_R * T), other };
}
