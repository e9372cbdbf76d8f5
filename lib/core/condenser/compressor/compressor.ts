import type { State } from '../../refrigerants/api';
import type { CompressorConstants } from './kinds';
import { efficiencyAt } from './published';
import { volumetricEfficiency } from './volumetric';
import { readMap, superheatFactor, type CompressorMap } from './ten-coefficient';
import type { Fluid } from '../fluid/fluid';

/** A compressor of known size: either constants with a displacement, or a maker's map. */
export type Compressor =
  { by: 'constants'; constants: CompressorConstants; displacement: number } | { by: 'map'; map: CompressorMap; shellLoss: number };

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

/** Mass flow and power from suction state to discharge pressure: pumping by clearance, power by isentropic work over efficiency. */
export function compress(fluid: Fluid, compressor: Compressor, suction: State, p2: number): Compression {
  const ideal = fluid.compressed(p2, suction.s);
  if (compressor.by === 'map') return fromMap(fluid, compressor.map, suction, p2, ideal);
  const { constants, displacement } = compressor;
  const filled = volumetricEfficiency(p2 / suction.p, constants.clearance, constants.exponent);
  const massFlow = suction.rho * displacement * filled;
  const work = massFlow * (ideal.h - suction.h);
  return { massFlow, power: work / efficiencyAt(constants, p2 / suction.p), ideal };
}

function fromMap(fluid: Fluid, map: CompressorMap, suction: State, p2: number, ideal: State): Compression {
  const s = fluid.dewT(suction.p);
  const read = readMap(map, s, fluid.dewT(p2));
  const rated = fluid.gas(s + map.ratedSuperheatK, suction.p);
  return { massFlow: read.massFlow * superheatFactor(suction.rho, rated.rho), power: read.power, ideal };
}
