import type { Helmholtz } from '../models/helmholtz';
import type { State } from '../types';

/**
 * T (K) and rho (kg/m³) of the vapour at pressure p (Pa) and entropy s (J/(kg·K)), by Newton's method in both,
 * from a state of the same pressure. Undefined if it does not settle.
 */
export function temperatureAtEntropy(
  model: Helmholtz,
  p: number,
  s: number,
  start: State,
): { T: number; rho: number; iterations: number } | undefined {
  let T = start.T * Math.exp(Math.min(1, (s - start.s) / start.cp));
  let rho = (start.rho * start.T) / T;
  for (let i = 1; i <= 50; i++) {
    model.at(T, rho);
    const r = model.residual;
    const pT = model.thermalPressure(rho);
    const pRho = model.R * T * (1 + 2 * r.a01 + r.a02);
    const sT = model.isochoricHeat() / T;
    const sRho = -pT / (rho * rho);
    const dp = p - rho * model.R * T * (1 + r.a01);
    const ds = s - model.entropy(rho);
    const det = pT * sRho - pRho * sT;
    const stepT = (dp * sRho - pRho * ds) / det;
    const stepRho = (pT * ds - sT * dp) / det;
    if (!Number.isFinite(stepT) || !Number.isFinite(stepRho)) return undefined;
    const scale = Math.min(1, 0.3 / Math.max(Math.abs(stepT) / T, Math.abs(stepRho) / rho));
    T += scale * stepT;
    rho += scale * stepRho;
    if (Math.abs(stepT) < 1e-7 * T && Math.abs(stepRho) < 1e-7 * rho) return { T, rho, iterations: i };
  }
  return undefined;
}
