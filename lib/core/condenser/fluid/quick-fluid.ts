import { isFailure, rangeOf, saturatedLiquid, saturatedVapour } from '../../refrigerants/api';
import { fluidOf } from './fluid';
import { dewCeilingK } from './limits';
import { chebyshev, chebyshev2, type Curve, type Surface } from './chebyshev';

/**
 * A refrigerant as smooth functions that cost next to nothing, for an inference that asks thousands of times. Fitted
 * once to the properties room by Chebyshev interpolation, saturation within 0.05 K over the range, work within 0.5 %.
 * Temperatures K; dew temperatures unless said.
 */
export type QuickFluid = {
  loK: number;
  hiK: number;
  criticalK: number;
  lnDewP: Curve;
  /** Dew temperature at a pressure, by inversion. */
  dewT(p: number): number;
  /** Dew less bubble temperature at the pressure whose dew temperature is given. */
  glide: Curve;
  /** Saturated vapour: enthalpy J/kg, ln density, heat capacity. */
  hVapour: Curve;
  lnRhoVapour: Curve;
  cpVapour: Curve;
  /** Saturated liquid at its own temperature. */
  hLiquid: Curve;
  lnRhoLiquid: Curve;
  /** From suction gas 10 K over the first dew temperature to the pressure of the second: isentropic work J/kg, end K. */
  work: Surface;
  idealEndK: Surface;
  cpDischarge: Curve;
};

export const WORK_SUPERHEAT_K = 10;
const LOWEST_K = 228;
const HIGHEST_K = 351;
const NODES = 12;

const made = new Map<string, QuickFluid | null>();

/** Null where a refrigerant has no numbers over a useful range. */
export function quickFluid(id: string): QuickFluid | null {
  const hit = made.get(id);
  if (hit !== undefined) return hit;
  const fluid = fit(id);
  if (fluid) made.set(id, fluid);
  return fluid;
}

function fit(id: string): QuickFluid | null {
  const range = rangeOf(id);
  if (isFailure(range)) return null;
  const fluid = fluidOf(id);
  const loK = Math.max(LOWEST_K, range.minT + 6);
  const hiK = Math.min(HIGHEST_K, dewCeilingK(id));
  if (!(hiK > loK + 60)) return null;
  const vapour = (T: number) => {
    const s = saturatedVapour(id, T);
    return isFailure(s) ? { h: NaN, rho: NaN, cp: NaN } : s;
  };
  const liquid = (T: number) => {
    const s = saturatedLiquid(id, T);
    return isFailure(s) ? { h: NaN, rho: NaN } : s;
  };
  const one = (f: (T: number) => number) => chebyshev(f, loK, hiK, NODES);
  const lnDewP = one((T) => Math.log(fluid.dewP(T)));
  const coldest = Math.min(292, hiK - 40);
  const ends = new Map<string, { work: number; T: number }>();
  const end = (te: number, tc: number) => {
    const key = `${te}|${tc}`;
    const found = ends.get(key);
    if (found) return found;
    const suction = fluid.gas(te + WORK_SUPERHEAT_K, fluid.dewP(te));
    const ideal = fluid.compressed(fluid.dewP(tc), suction.s);
    const value = { work: ideal.h - suction.h, T: ideal.T };
    ends.set(key, value);
    return value;
  };
  const surface = (f: (te: number, tc: number) => number) => chebyshev2(f, [loK, coldest, 5], [284, hiK, 6]);
  const quick: QuickFluid = {
    loK,
    hiK,
    criticalK: range.criticalT,
    lnDewP,
    dewT: (p) => inverted(lnDewP, Math.log(p), loK, hiK),
    glide: one((T) => T - fluid.bubbleT(fluid.dewP(T))),
    hVapour: one((T) => vapour(T).h),
    lnRhoVapour: one((T) => Math.log(vapour(T).rho)),
    cpVapour: chebyshev((T) => vapour(T).cp, loK, Math.min(hiK, 300), 6),
    hLiquid: one((T) => liquid(T).h),
    lnRhoLiquid: one((T) => Math.log(liquid(T).rho)),
    work: surface((te, tc) => end(te, tc).work),
    idealEndK: surface((te, tc) => end(te, tc).T),
    cpDischarge: chebyshev((T) => fluid.gas(T + 35, fluid.dewP(T)).cp, 284, hiK, 5),
  };
  const sample = [quick.work(260, 315), quick.idealEndK(260, 315), quick.hLiquid(300), quick.cpDischarge(310), quick.glide(310)];
  return sample.every(Number.isFinite) ? quick : null;
}

/** T at which an increasing curve reaches y, by Newton with its own slope; held inside the range. */
function inverted(curve: Curve, y: number, lo: number, hi: number): number {
  let T = (lo + hi) / 2;
  for (let i = 0; i < 12; i++) {
    const slope = (curve(T + 0.25) - curve(T - 0.25)) / 0.5;
    const step = (y - curve(T)) / slope;
    T = Math.min(hi + 5, Math.max(lo - 5, T + Math.max(-30, Math.min(30, step))));
    if (Math.abs(step) < 1e-6) break;
  }
  return T;
}
