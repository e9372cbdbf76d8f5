import { atmosphereAt } from '../../measures';
import { dewCeilingK } from '../fluid/limits';
import type { Compressor } from '../compressor/compressor';
import { cycleAt, type Cycle } from './cycle';
import { dewFromMean, fluidOf, type Fluid } from '../fluid/fluid';
import { profileOf, type Profile } from './profiles';
import type { CondenserUnit } from '../types';

/** A unit as the equations see it: sized so that at its design point it does its nominal cooling. */
export type UnitModel = {
  fluid: Fluid;
  profile: Profile;
  compressor: Compressor;
  superheatK: number;
  subcoolingK: number;
  /** W/K between box and evaporating dew temperature. */
  evaporatorUA: number;
  /** Heat rejected at the design point, W: turns a rise into a conductance and back. */
  designDutyW: number;
  /** Fans while running, W. */
  fanW: number;
  /** Highest condensing dew temperature that is worked with, K. */
  ceilingK: number;
  atmospherePa: number;
};

export type ModelOptions = { profile?: Profile };

/** The model of a unit, or null where its refrigerant has no numbers at the design point. */
export function modelOf(unit: CondenserUnit, options: ModelOptions = {}): UnitModel | null {
  const profile = options.profile ?? profileOf(unit.kind, unit.application);
  const fluid = fluidOf(unit.refrigerant);
  const ceilingK = dewCeilingK(unit.refrigerant);
  const condensingDewK = dewFromMean(fluid, profile.designAirK + profile.cleanRiseK);
  const evaporatingK = Math.min(288, Math.max(225, unit.boxSetPointK - profile.evaporatorDifferenceK));
  const base = {
    fluid,
    profile,
    superheatK: profile.superheatK,
    subcoolingK: profile.subcoolingK,
    ceilingK,
    atmospherePa: atmosphereAt(unit.altitudeM),
  };
  const compressor = sized(profile, unit, evaporatingK, condensingDewK, base);
  const design = dewCycle({ ...base, compressor }, evaporatingK, condensingDewK);
  if (!(design.heatRejected > 0 && design.cooling > 0 && ceilingK > condensingDewK)) return null;
  return {
    ...base,
    compressor,
    evaporatorUA: design.cooling / profile.evaporatorDifferenceK,
    designDutyW: design.heatRejected,
    fanW: profile.fanShare * design.power,
  };
}

type Heats = Pick<UnitModel, 'fluid' | 'superheatK' | 'subcoolingK'>;

function sized(profile: Profile, unit: CondenserUnit, te: number, tc: number, heats: Heats): Compressor {
  if (unit.compressorMap) return { by: 'map', map: unit.compressorMap, shellLoss: profile.compressor.shellLoss };
  const constants = profile.compressor;
  const one: Compressor = { by: 'constants', constants, displacement: 1 };
  const wanted = unit.nominalCoolingW ?? profile.nominalCoolingW;
  const displacement = wanted / dewCycle({ ...heats, compressor: one }, te, tc).cooling;
  return { by: 'constants', constants, displacement };
}

/** The cycle between two dew temperatures (K) with the model's own superheat and subcooling. */
export function dewCycle(model: Heats & { compressor: Compressor }, te: number, tc: number): Cycle {
  const { fluid } = model;
  const p2 = fluid.dewP(tc);
  return cycleAt(fluid, model.compressor, fluid.dewP(te), p2, {
    suctionK: te + model.superheatK,
    liquidK: fluid.bubbleT(p2) - model.subcoolingK,
  });
}

/** W/K from a rise at design load, and the other way round. */
export function conductanceFromRise(model: UnitModel, designRiseK: number): number {
  return model.designDutyW / designRiseK;
}
