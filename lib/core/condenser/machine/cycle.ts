import type { State } from '../../refrigerants/api';
import { compress, shellLossOf, type Compressor } from '../compressor/compressor';
import type { Fluid } from '../fluid/fluid';

/** What pins down a cycle besides its two pressures. */
export type CycleInputs = {
  /** Gas temperature at the compressor, K. */
  suctionK: number;
  /** Liquid temperature before the expansion, K. */
  liquidK: number;
  /** Discharge gas temperature where it was measured, K; otherwise it follows from the compressor's power. */
  dischargeK?: number;
};

export type Cycle = {
  evaporatingPa: number;
  condensingPa: number;
  suction: State;
  ideal: State;
  /** J/kg leaving the compressor. */
  dischargeH: number;
  /** J/kg before and after the expansion. */
  liquidH: number;
  massFlow: number;
  power: number;
  /** Heat taken up between expansion and compressor, W. */
  cooling: number;
  /** Heat given to the condenser air, W: cooling plus power less what the shell gives to the room. */
  heatRejected: number;
};

/** One operating point of a compressor between two pressures (Pa, absolute). */
export function cycleAt(fluid: Fluid, compressor: Compressor, p1: number, p2: number, given: CycleInputs): Cycle {
  const suction = fluid.gas(given.suctionK, p1);
  const { massFlow, power, ideal } = compress(fluid, compressor, suction, p2);
  const liquidH = fluid.liquidH(given.liquidK, p2);
  const kept = (1 - shellLossOf(compressor)) * power;
  const dischargeH = given.dischargeK === undefined ? suction.h + kept / massFlow : fluid.gas(given.dischargeK, p2).h;
  return {
    evaporatingPa: p1,
    condensingPa: p2,
    suction,
    ideal,
    dischargeH,
    liquidH,
    massFlow,
    power,
    cooling: massFlow * (suction.h - liquidH),
    heatRejected: massFlow * (dischargeH - liquidH),
  };
}

/**
 * Gas temperature at a pressure and enthalpy, from the isentropic state nearby; K. Hotter than the properties reach,
 * the heat capacity is taken on: check with `isServed` before showing it.
 */
export function dischargeTemperature(fluid: Fluid, cycle: Cycle): number {
  let T = cycle.ideal.T + (cycle.dischargeH - cycle.ideal.h) / cycle.ideal.cp;
  for (let i = 0; i < 8; i++) {
    const at = fluid.gas(T, cycle.condensingPa);
    if (Number.isNaN(at.h)) break;
    const step = (cycle.dischargeH - at.h) / at.cp;
    T += step;
    if (!(Math.abs(step) > 1e-7)) break;
  }
  return T;
}
