import { ChebyshevCurve, fitPiecewise, type Piecewise } from '../../lib/core/numerics/chebyshev';
import { findRoot } from '../../lib/core/numerics/root';
import type { Helmholtz } from '../../lib/core/refrigerants/models/helmholtz';
import { applyIirReference } from '../../lib/core/refrigerants/reference-state';
import type { Boundary, ExactSaturation } from '../../lib/core/refrigerants/solvers/exact';
import type { BranchTables, PressureTables, SaturationTables } from '../../lib/core/refrigerants/tables/format';

/** Relative error of pressures and densities, and of h, s, 1/cp against their scale, that the expansions are cut to. */
const TOLERANCE = 2e-10;

export type BuildRange = {
  minT: number;
  /** How far below the critical temperature the tables end, K. */
  margin: number;
  pure: boolean;
};

/** Expansions of both saturation branches, from the solved curve. */
export function buildSaturation(exact: ExactSaturation, range: BuildRange): SaturationTables {
  const { model, anchor, critical } = exact;
  applyIirReference(model, solved(exact.bubble, 273.15).rho);
  const minT = range.minT;
  const maxT = critical.T - range.margin;
  return {
    anchor,
    minT,
    maxT,
    critical,
    offsets: { h: model.enthalpyOffset, s: model.entropyOffset },
    bubble: pressureTables(exact.bubble, anchor, minT, maxT),
    ...(range.pure ? {} : { dew: pressureTables(exact.dew, anchor, minT, maxT) }),
    liquid: branchTables(model, exact.bubble, anchor, minT, maxT, (rho) => rho, 1000),
    vapour: branchTables(model, exact.dew, anchor, minT, maxT, Math.log, 1),
  };
}

type Curve = (T: number) => Boundary | undefined;

function solved(curve: Curve, T: number): Boundary {
  const point = curve(T);
  if (!point) throw new Error(`Saturation at ${T} K was not solved`);
  return point;
}

function pressureTables(curve: Curve, anchor: number, minT: number, maxT: number): PressureTables {
  const [near, far] = [Math.sqrt(anchor - maxT), Math.sqrt(anchor - minT)];
  const lnP = fitPiecewise((u) => Math.log(solved(curve, anchor - u * u).p), near, far, { tolerance: TOLERANCE });
  const forward = new ChebyshevCurve(lnP);
  const at = (T: number) => forward.value(Math.sqrt(anchor - T));
  const [low, high] = [at(minT), at(maxT)];
  const inverse = (y: number) => {
    if (y <= low) return minT;
    if (y >= high) return maxT;
    const root = findRoot((x) => at(1 / x) - y, 1 / maxT, 1 / minT, { tolerance: 1e-18 });
    if (root.status !== 'converged') throw new Error(`No temperature for ln p = ${y}`);
    return 1 / root.value;
  };
  return { lnP, T: fitPiecewise(inverse, low, high, { tolerance: TOLERANCE * 50 }) };
}

function branchTables(
  model: Helmholtz,
  curve: Curve,
  anchor: number,
  minT: number,
  maxT: number,
  density: (rho: number) => number,
  scale: number,
): BranchTables {
  const [low, high] = [Math.sqrt(anchor - maxT), Math.sqrt(anchor - minT)];
  const fit = (read: (T: number, rho: number) => number, tolerance: number): Piecewise =>
    fitPiecewise(
      (u) => {
        const T = anchor - u * u;
        return read(T, solved(curve, T).rho);
      },
      low,
      high,
      { tolerance },
    );
  return {
    rho: fit((_, rho) => density(rho), TOLERANCE * scale),
    h: fit((T, rho) => model.state(T, rho).h, TOLERANCE * 200e3),
    s: fit((T, rho) => model.state(T, rho).s, TOLERANCE * 1e3),
    inverseCp: fit((T, rho) => 1 / model.state(T, rho).cp, TOLERANCE * 1e-3),
  };
}
