import { boxCurve, meet } from './box-curve';
import { dischargeTemperature } from './cycle';
import { sifted } from '../readings/doubts';
import { see } from './inverse';
import { conductanceFromRise, modelOf } from './model';
import { resolve } from '../readings/resolve';
import type { CondenserUnit, Reading } from '../types';

/** Conductance in W/K of a unit whose rise at design load is `designRiseK`: `baseline.cleanRiseK` for clean. Null without properties. */
export function conductanceOf(unit: CondenserUnit, designRiseK: number): number | null {
  const model = modelOf(unit);
  return model && designRiseK > 0 ? conductanceFromRise(model, designRiseK) : null;
}

export type HeadAtAir = { airK: number; headPaGauge: number; condensingK: number };

/**
 * Head pressure against coil-inlet air for one conductance (W/K): the line for a picture. Air temperatures at which
 * the head would leave the computable range are left out.
 */
export function headAgainstAir(
  unit: CondenserUnit,
  conductanceWK: number,
  airsK: readonly number[],
  boxK = unit.boxSetPointK,
): HeadAtAir[] {
  const model = modelOf(unit);
  if (!model || airsK.length === 0) return [];
  const lo = Math.max(Math.min(...airsK), boxK - 15) + 0.5;
  if (!(lo < model.ceilingK - 20)) return [];
  const curve = boxCurve(model, boxK, lo, model.ceilingK);
  if (!curve) return [];
  return airsK.flatMap((airK) => {
    const p = meet(curve, conductanceWK, airK);
    if (!p) return [];
    return [{ airK, headPaGauge: model.fluid.dewP(p.condensingDewK) - model.atmospherePa, condensingK: p.condensingK }];
  });
}

export type CyclePoint = {
  name: 'suction' | 'discharge' | 'dew' | 'bubble' | 'liquid' | 'evaporator_inlet';
  /** K, Pa absolute, J/kg. */
  T: number;
  p: number;
  h: number;
};

/** The cycle of a reading for a pressure–enthalpy picture, in order round the loop; null where it has no numbers. */
export function cyclePoints(unit: CondenserUnit, reading: Reading): CyclePoint[] | null {
  const model = modelOf(unit);
  const resolved = model && resolve(unit, model, sifted(unit, reading).sound);
  if (!model || !resolved) return null;
  const { fluid } = model;
  const seen = see(model, resolved);
  const { cycle } = seen;
  const p2 = cycle.condensingPa;
  const p1 = cycle.evaporatingPa;
  const liquidK = fluid.bubbleT(p2) - Math.max(0, seen.subcoolingK);
  const points: CyclePoint[] = [
    { name: 'suction', T: cycle.suction.T, p: p1, h: cycle.suction.h },
    { name: 'discharge', T: dischargeTemperature(fluid, cycle), p: p2, h: cycle.dischargeH },
    { name: 'dew', T: fluid.dewT(p2), p: p2, h: fluid.gas(fluid.dewT(p2), p2).h },
    { name: 'bubble', T: fluid.bubbleT(p2), p: p2, h: fluid.liquidH(fluid.bubbleT(p2), p2) },
    { name: 'liquid', T: liquidK, p: p2, h: cycle.liquidH },
    { name: 'evaporator_inlet', T: fluid.bubbleT(p1), p: p1, h: cycle.liquidH },
  ];
  return points.every((x) => Number.isFinite(x.T + x.p + x.h)) ? points : null;
}
