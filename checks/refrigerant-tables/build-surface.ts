import { chebyshevCoefficients } from '../../lib/core/numerics/chebyshev';
import type { Helmholtz } from '../../lib/core/refrigerants/models/helmholtz';
import type { ExactSaturation } from '../../lib/core/refrigerants/solvers/exact';
import { densityFrom } from '../../lib/core/refrigerants/solvers/density';
import type { SurfacePatch, SurfaceTable } from '../../lib/core/refrigerants/tables/surface-format';

const DEGREE = 24;

export type SurfaceRange = {
  minT: number;
  /** K: end of the saturation tables, end of the vapour. */
  maxSaturationT: number;
  maxT: number;
  /** Pa: highest liquid pressure. */
  maxP: number;
  tolerance: number;
};

/** Vapour of a blend from the ideal gas to the dew curve, and above it up to the pressure at the dew curve's end. */
export function buildVapourSurface(exact: ExactSaturation, range: SurfaceRange, cuts: readonly number[]): SurfaceTable {
  const { model } = exact;
  const top = exact.dew(range.maxSaturationT)!;
  const edges = [range.minT, ...cuts, range.maxT].sort((a, b) => b - a);
  const patches = edges.slice(1).map((lowT, i) => {
    const highT = edges[i]!;
    const densest = highT <= range.maxSaturationT ? exact.dew(highT)!.rho : densestGas(model, lowT, range, top);
    return fitPatch(model, [highT, lowT], [0, densest * 1.02], true, range.tolerance);
  });
  return { overDelta: true, patches };
}

/** Above the saturation curve the density at the limiting pressure falls with T. */
function densestGas(model: Helmholtz, lowT: number, range: SurfaceRange, top: { p: number; rho: number }): number {
  if (lowT <= range.maxSaturationT) return top.rho;
  return densityFrom(model, lowT, top.p, top.p / (model.R * lowT));
}

/** Liquid of a blend from the bubble curve to the highest pressure. */
export function buildLiquidSurface(exact: ExactSaturation, range: SurfaceRange, cuts: readonly number[]): SurfaceTable {
  const { model } = exact;
  const edges = [range.minT, ...cuts, range.maxSaturationT].sort((a, b) => b - a);
  const patches = edges.slice(1).map((lowT, i) => {
    const highT = edges[i]!;
    const thin = exact.bubble(highT)!.rho * 0.995;
    const dense = densityFrom(model, lowT, range.maxP, exact.bubble(lowT)!.rho) * 1.002;
    return fitPatch(model, [highT, lowT], [thin, dense], false, range.tolerance);
  });
  return { overDelta: false, patches };
}

function fitPatch(
  model: Helmholtz,
  T: readonly [number, number],
  rho: readonly [number, number],
  overDelta: boolean,
  tolerance: number,
): SurfacePatch {
  const tau = [model.reducingT / T[0], model.reducingT / T[1]] as const;
  const delta = [rho[0] / model.reducingRho, rho[1] / model.reducingRho] as const;
  const at = (range: readonly [number, number], k: number) =>
    (range[0] + range[1]) / 2 + ((range[1] - range[0]) / 2) * Math.cos((Math.PI * k) / DEGREE);
  const r = model.residual;
  // First along δ at each τ, then along τ for each coefficient.
  const byTau: Float64Array[] = [];
  for (let i = 0; i <= DEGREE; i++) {
    r.setTau(at(tau, i));
    const values = new Float64Array(DEGREE + 1);
    for (let j = 0; j <= DEGREE; j++) {
      const d = at(delta, j);
      if (overDelta && d < 1e-12) values[j] = r.virial();
      else {
        r.evaluate(d);
        values[j] = overDelta ? r.a00 / d : r.a00;
      }
    }
    byTau.push(chebyshevCoefficients(values));
  }
  const rows: number[][] = [];
  for (let j = 0; j <= DEGREE; j++) {
    const row = Array.from(chebyshevCoefficients(byTau.map((c) => c[j]!)));
    let end = row.length;
    while (end > 0 && Math.abs(row[end - 1]!) < tolerance) end--;
    rows.push(row.slice(0, end));
  }
  while (rows.length > 1 && rows[rows.length - 1]!.length === 0) rows.pop();
  return { tau, delta, rows };
}
