import type { Helmholtz } from '../models/helmholtz';

export type SaturationPoint = {
  status: 'converged' | 'not_converged';
  p: number;
  rhoL: number;
  rhoV: number;
  iterations: number;
  /** Largest of the two relative mismatches: pressures over RTρ_r, Gibbs energies over RT. */
  residual: number;
};

/** A thousandth of a kelvin below the critical point the densities still differ by several times this share. */
const LEAST_APART = 1e-3;

/**
 * Both densities of a pure fluid at saturation: equal pressure and equal Gibbs energy.
 * Newton's method in both densities (Akasaka 2008, J. Therm. Sci. Technol. 3, 442).
 */
export function pureSaturation(model: Helmholtz, T: number, startL: number, startV: number): SaturationPoint {
  const r = model.residual;
  r.setTau(model.reducingT / T);
  let dL = startL / model.reducingRho;
  let dV = startV / model.reducingRho;
  let residual = Infinity;
  for (let i = 1; i <= 100; i++) {
    r.evaluate(dL);
    const jL = dL * (1 + r.a01);
    const kL = r.a00 + r.a01 + Math.log(dL);
    const jL1 = 1 + 2 * r.a01 + r.a02;
    const kL1 = jL1 / dL;
    r.evaluate(dV);
    const jV = dV * (1 + r.a01);
    const kV = r.a00 + r.a01 + Math.log(dV);
    const jV1 = 1 + 2 * r.a01 + r.a02;
    const kV1 = jV1 / dV;
    const dj = jV - jL;
    const dk = kV - kL;
    residual = Math.max(Math.abs(dj) / Math.abs(jV), Math.abs(dk));
    const det = jV1 * kL1 - jL1 * kV1;
    const stepL = (dk * jV1 - dj * kV1) / det;
    const stepV = (dk * jL1 - dj * kL1) / det;
    if (!Number.isFinite(stepL) || !Number.isFinite(stepV)) break;
    const scale = Math.min(1, 0.3 / Math.max(Math.abs(stepL) / dL, Math.abs(stepV) / dV));
    dL += scale * stepL;
    dV += scale * stepV;
    if (Math.abs(stepL) < 1e-13 * dL + 1e-15 && Math.abs(stepV) < 1e-12 * dV) return done('converged', i);
    if (i > 12 && residual < 1e-12) return done('converged', i);
  }
  return done('not_converged', 100);

  function done(status: SaturationPoint['status'], iterations: number): SaturationPoint {
    const rhoV = dV * model.reducingRho;
    // Any two densities that are one solve the equations too; they are no saturation.
    const ok = status === 'converged' && dL > dV * (1 + LEAST_APART);
    return {
      status: ok ? 'converged' : 'not_converged',
      p: model.pressure(T, rhoV),
      rhoL: dL * model.reducingRho,
      rhoV,
      iterations,
      residual,
    };
  }
}
