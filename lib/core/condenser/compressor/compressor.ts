import type { State } from '../../refrigerants/api';
import type { CompressorConstants } from './kinds';
import { volumetricEfficiency } from './volumetric';
import { readMap, superheatFactor, type CompressorMap } from './ten-coefficient';
import type { Fluid } from '../fluid/fluid';

/** A compressor of known size: either constants with a displacement, or a maker's map. */
export type Compressor =
  | { by: 'constants'; constants: CompressorConstants; displacement: number; fixedLossW: number }
  | { by: 'map'; map: CompressorMap; shellLoss: number };

export type Compression = {
  /** kg/s */
  massFlow: number;
  /** Shaft (electrical, where the map says so) power, W. */
  power: number;
  /** Isentropic discharge state. */
  ideal: State;
};

export function shellLossOf(compressor: Compressor): number {
  return compressor.by === 'map' ? compressor.shellLoss : compressor.constants.shellLoss;
}

/**
 * Mass flow and power from suction state to discharge pressure. Power is isentropic work, with the part of the
 * losses that grows with it, plus losses that do not: a constant efficiency overstates how power rises with head.
 */
export function compress(fluid: Fluid, compressor: Compressor, suction: State, p2: number): Compression {
  const ideal = fluid.compressed(p2, suction.s);
  if (compressor.by === 'map') return fromMap(fluid, compressor.map, suction, p2, ideal);
  const { constants, displacement, fixedLossW } = compressor;
  const filled = volumetricEfficiency(p2 / suction.p, constants.clearance, constants.exponent);
  const massFlow = suction.rho * displacement * filled;
  const work = massFlow * (ideal.h - suction.h);
  return { massFlow, power: work * growth(constants) + fixedLossW, ideal };
}

/** Shaft power per isentropic work, leaving the fixed losses out. */
function growth(c: CompressorConstants): number {
  return 1 + c.lossGrowth * (1 / c.ratedEfficiency - 1);
}

/** Losses of a displacement of 1 m³/s that do not grow with isentropic work, W: set at the rating point. */
export function fixedLossPerDisplacement(fluid: Fluid, c: CompressorConstants): number {
  if (c.lossGrowth >= 1) return 0;
  const p1 = fluid.dewP(c.rating.evaporatingK);
  const p2 = fluid.dewP(c.rating.condensingK);
  const suction = fluid.gas(c.rating.evaporatingK + c.rating.superheatK, p1);
  const filled = volumetricEfficiency(p2 / p1, c.clearance, c.exponent);
  const work = suction.rho * filled * (fluid.compressed(p2, suction.s).h - suction.h);
  return work * (1 - c.lossGrowth) * (1 / c.ratedEfficiency - 1);
}

function fromMap(fluid: Fluid, map: CompressorMap, suction: State, p2: number, ideal: State): Compression {
  const s = fluid.dewT(suction.p);
  const read = readMap(map, s, fluid.dewT(p2));
  const rated = fluid.gas(s + map.ratedSuperheatK, suction.p);
  return { massFlow: read.massFlow * superheatFactor(suction.rho, rated.rho), power: read.power, ideal };
}
