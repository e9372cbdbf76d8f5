import { dewCycle, type UnitModel } from './model';
import { increasingRoot } from './root';

/** Furthest that evaporating temperature is sought below the box. */
const REACH_K = 60;
const COLDEST_K = 205;

/**
 * Evaporating dew temperature (K) at which the evaporator takes up what the compressor moves, for a box (K) and a
 * condensing dew temperature (K): UA·(box − te) = cooling(te, tc). Cooling rises with te while the other side
 * falls, so there is one root. NaN where the cycle has no numbers.
 */
export function evaporatingFor(model: UnitModel, boxK: number, tc: number, near?: number, tolerance = 1e-9): number {
  const root = increasingRoot((te) => dewCycle(model, te, tc).cooling - model.evaporatorUA * (boxK - te), {
    lo: Math.max(boxK - REACH_K, COLDEST_K),
    hi: Math.min(boxK, tc) - 0.01,
    start: near ?? boxK - model.profile.evaporatorDifferenceK,
    tolerance,
  });
  return root.status === 'converged' ? root.value : NaN;
}
