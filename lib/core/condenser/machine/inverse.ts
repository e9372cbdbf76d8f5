import { cycleAt, type Cycle } from './cycle';
import { evaporatingFor } from './evaporator';
import { dewFromMean } from '../fluid/fluid';
import type { UnitModel } from './model';
import type { Resolved } from '../readings/resolve';

/** The condenser as one reading shows it. */
export type Seen = {
  condensingK: number;
  condensingDewK: number;
  headPa: number;
  riseK: number;
  evaporatingDewK: number;
  /** K; negative says the line reads colder than saturation allows. */
  superheatK: number;
  subcoolingK: number;
  cycle: Cycle;
  heatRejectedW: number;
  conductanceWK: number;
  /** Whether the clamps' values could be believed and were used. */
  used: { suctionLine: boolean; discharge: boolean };
};

/** Evaporating temperature is found to this, K: a thousandth of what any instrument tells. */
const SETTLED_K = 5e-4;
/** A suction line this much above saturation, or less than none, is no superheat but a fault of the reading. */
const SUPERHEAT_RANGE = [0, 45] as const;
/** Discharge gas this far below isentropic or above it is a fault of the clamp. */
const DISCHARGE_RANGE = [-8, 90] as const;

/** Conductance from measured values, each used before any assumption. Fields are NaN where nothing can be had. */
export function see(model: UnitModel, r: Resolved): Seen {
  const { fluid } = model;
  const headPa = r.head.by === 'gauge' ? r.head.value : fluid.dewP(dewFromMean(fluid, r.head.value));
  const condensingDewK = fluid.dewT(headPa);
  const bubble = fluid.bubbleT(headPa);
  const condensingK = (condensingDewK + bubble) / 2;
  const evaporatingDewK = r.suctionPa
    ? fluid.dewT(r.suctionPa.value)
    : evaporatingFor(model, r.boxK.value, condensingDewK, undefined, SETTLED_K);
  const p1 = r.suctionPa ? r.suctionPa.value : fluid.dewP(evaporatingDewK);
  const superheatK = r.suctionLineK ? r.suctionLineK.value - evaporatingDewK : r.superheatK.value;
  const subcoolingK = r.liquidLineK ? bubble - r.liquidLineK.value : r.subcoolingK.value;
  const usable = superheatK >= SUPERHEAT_RANGE[0] && superheatK <= SUPERHEAT_RANGE[1];
  const suctionK = evaporatingDewK + (usable ? superheatK : r.superheatK.value);
  const cycle = cycleAt(fluid, model.compressor, p1, headPa, { suctionK, liquidK: bubble - Math.max(0, subcoolingK) });
  const discharge = measuredDischargeH(model, r, cycle);
  const heatRejectedW = cycle.massFlow * ((discharge ?? cycle.dischargeH) - cycle.liquidH);
  const riseK = condensingK - r.airK.value;
  return {
    condensingK,
    condensingDewK,
    headPa,
    riseK,
    evaporatingDewK,
    superheatK,
    subcoolingK,
    cycle,
    heatRejectedW,
    conductanceWK: heatRejectedW / riseK,
    used: { suctionLine: usable && r.suctionLineK !== undefined, discharge: discharge !== undefined },
  };
}

/** Enthalpy by the clamp on the discharge line where its value can be; without it the compressor's power tells. */
function measuredDischargeH(model: UnitModel, r: Resolved, cycle: Cycle): number | undefined {
  if (!r.dischargeLineK) return undefined;
  const over = r.dischargeLineK.value - cycle.ideal.T;
  if (!(over >= DISCHARGE_RANGE[0] && over <= DISCHARGE_RANGE[1])) return undefined;
  return model.fluid.gas(r.dischargeLineK.value, cycle.condensingPa).h;
}
