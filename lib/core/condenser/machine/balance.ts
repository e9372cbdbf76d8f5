import { dischargeTemperature, type Cycle } from './cycle';
import { evaporatingFor } from './evaporator';
import { meanT } from '../fluid/fluid';
import { dewCycle, modelOf, type ModelOptions, type UnitModel } from './model';
import { increasingRoot } from './root';
import type { CondenserUnit } from '../types';

/** The surroundings a unit settles in. */
export type Surroundings = { airK: number; boxK: number };

/** A unit running steadily: all of it, SI. */
export type SteadyState = {
  status: 'ok';
  conductanceWK: number;
  airK: number;
  boxK: number;
  /** Mean of bubble and dew, and dew. */
  condensingK: number;
  condensingDewK: number;
  riseK: number;
  headPa: number;
  headPaGauge: number;
  evaporatingDewK: number;
  suctionPa: number;
  suctionPaGauge: number;
  suctionLineK: number;
  liquidLineK: number;
  dischargeLineK: number;
  massFlow: number;
  coolingW: number;
  /** Compressor alone; fans apart. */
  powerW: number;
  fanW: number;
  /** What the compressor's shell gives to the room. */
  shellW: number;
  heatRejectedW: number;
  /** Imbalance left at the condenser, W, and the steps taken. */
  residualW: number;
  iterations: number;
};

export type NoSteadyState = { status: 'unknown_refrigerant' | 'out_of_range' | 'not_converged'; message: string };

/**
 * The balance of evaporator, compressor and condenser: the one condensing temperature at which the coil of the
 * given conductance (W/K, heat rejected over rise) sheds exactly what compressor and evaporator bring.
 */
export function steadyState(
  unit: CondenserUnit,
  conductanceWK: number,
  at: Surroundings,
  options: ModelOptions = {},
): SteadyState | NoSteadyState {
  const model = modelOf(unit, options);
  if (!model) return { status: 'unknown_refrigerant', message: `No usable properties for ${unit.refrigerant}` };
  return balance(model, conductanceWK, at);
}

export function balance(model: UnitModel, conductanceWK: number, at: Surroundings): SteadyState | NoSteadyState {
  if (!(conductanceWK > 0 && at.airK > 200 && at.boxK > 200)) return { status: 'out_of_range', message: 'Nothing to balance' };
  let te: number | undefined;
  const surplus = (tc: number) => {
    te = evaporatingFor(model, at.boxK, tc, te);
    const cycle = dewCycle(model, te, tc);
    return conductanceWK * (meanT(model.fluid, cycle.condensingPa) - at.airK) - cycle.heatRejected;
  };
  const root = increasingRoot(surplus, {
    lo: Math.max(at.airK, at.boxK - 20) + 0.05,
    hi: model.ceilingK,
    start: at.airK + model.designDutyW / conductanceWK,
    tolerance: 1e-10,
  });
  if (root.status === 'no_bracket') return { status: 'out_of_range', message: 'Head would settle outside the range that can be computed' };
  if (root.status !== 'converged') return { status: 'not_converged', message: 'The balance did not settle' };
  const tc = root.value;
  const evaporatingK = evaporatingFor(model, at.boxK, tc, te);
  const cycle = dewCycle(model, evaporatingK, tc);
  return described(model, conductanceWK, at, {
    cycle,
    tc,
    evaporatingK,
    residual: root.residual,
    iterations: root.iterations,
  });
}

function described(
  model: UnitModel,
  conductanceWK: number,
  { airK, boxK }: Surroundings,
  found: { cycle: Cycle; tc: number; evaporatingK: number; residual: number; iterations: number },
): SteadyState {
  const { cycle, tc, evaporatingK } = found;
  const condensingK = meanT(model.fluid, cycle.condensingPa);
  const gauge = (p: number) => p - model.atmospherePa;
  return {
    status: 'ok',
    conductanceWK,
    airK,
    boxK,
    condensingK,
    condensingDewK: tc,
    riseK: condensingK - airK,
    headPa: cycle.condensingPa,
    headPaGauge: gauge(cycle.condensingPa),
    evaporatingDewK: evaporatingK,
    suctionPa: cycle.evaporatingPa,
    suctionPaGauge: gauge(cycle.evaporatingPa),
    suctionLineK: cycle.suction.T,
    liquidLineK: model.fluid.bubbleT(cycle.condensingPa) - model.subcoolingK,
    dischargeLineK: dischargeTemperature(model.fluid, cycle),
    massFlow: cycle.massFlow,
    coolingW: cycle.cooling,
    powerW: cycle.power,
    fanW: model.fanW,
    shellW: cycle.cooling + cycle.power - cycle.heatRejected,
    heatRejectedW: cycle.heatRejected,
    residualW: found.residual,
    iterations: found.iterations,
  };
}
