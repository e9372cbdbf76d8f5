import type { Helmholtz } from '../models/helmholtz';

const ENOUGH = 1e-11;

/**
 * Density (kg/m³) of the phase nearest to the starting value, from T (K) and p (Pa), by Newton's method on p(ρ).
 * NaN if it leaves the mechanically stable region or does not settle.
 */
export function densityFrom(model: Helmholtz, T: number, p: number, start: number): number {
  // Beyond its ceiling an expansion means nothing; from there Newton's method comes back down.
  const ceiling = model.highestDensity(T);
  let rho = Math.min(start, ceiling);
  for (let i = 0; i < 60; i++) {
    const miss = model.pressure(T, rho) - p;
    const slope = model.pressureSlope(T);
    if (!(slope > 0)) return NaN;
    let step = -miss / slope;
    if (step < -0.5 * rho) step = -0.5 * rho;
    else if (step > 0.5 * rho) step = 0.5 * rho;
    if (rho + step > ceiling) step = ceiling - rho;
    rho += step;
    if (Math.abs(step) < ENOUGH * rho) return rho;
    // Quadratic convergence: the step after one this small is below rounding.
    if (Math.abs(step) < 1e-7 * rho && i > 0) return rho;
  }
  return NaN;
}

/** Gas density (kg/m³) at T and p; NaN where there is no gas. */
export function gasDensity(model: Helmholtz, T: number, p: number): number {
  const rho = densityFrom(model, T, p, gasStart(model, T, p));
  // From below the isotherm is approached without overshoot, slowly but surely.
  return rho > 0 ? rho : densityFrom(model, T, p, p / (model.R * T));
}

/** Starting density of a gas from its second virial coefficient. */
function gasStart(model: Helmholtz, T: number, p: number): number {
  model.residual.setTau(model.reducingT / T);
  const ideal = p / (model.R * T);
  const b = model.residual.virial() / model.reducingRho;
  const root = 1 + 4 * b * ideal;
  return root > 0 ? (2 * ideal) / (1 + Math.sqrt(root)) : 2 * ideal;
}
