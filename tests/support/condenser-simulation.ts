import { balance, type SteadyState } from '@/lib/core/condenser/balance';
import {
  cleanPrior,
  type CleanBaseline,
  type Conditions,
  type CondenserUnit,
  type Reading,
} from '@/lib/core/condenser';
import {
  AIR_PLACEMENT_SD_K,
  CONTACT_SD_K,
  gaugeSdPa,
  STEADY_SCATTER_SD_K,
  THERMOMETER_SD_K,
} from '@/lib/core/condenser/instruments';
import { fixedLossPerDisplacement, type Compressor } from '@/lib/core/condenser/compressor';
import { conductanceFromRise, modelOf, type UnitModel } from '@/lib/core/condenser/model';
import { type RandomStream } from '@/lib/core/numerics/random';
import type { UnitKind } from '@/lib/core/equipment';

/** A made-up unit, its truth and one reading of it with errors of the sizes that the estimate allows for. */
export type Simulated = {
  unit: CondenserUnit;
  baseline: CleanBaseline;
  reading: Reading;
  /** The model with the unit's own, unknown constants. */
  truth: UnitModel;
  cleanConductance: number;
  conductance: number;
  state: SteadyState;
};

const PSI = 6894.757293168;
export const HOT_DAY: Conditions = { hotDayAirK: 311, boxK: 276, energyPricePerKwh: 0.2, currency: 'USD' };

type Kitchen = { refrigerant: string; kind: UnitKind; application: 'medium' | 'low'; boxK: number };
const FLEET: readonly Kitchen[] = [
  { refrigerant: 'R134a', kind: 'reach_in', application: 'medium', boxK: 276 },
  { refrigerant: 'R290', kind: 'undercounter', application: 'medium', boxK: 276 },
  { refrigerant: 'R404A', kind: 'walk_in_cooler', application: 'medium', boxK: 275.5 },
  { refrigerant: 'R404A', kind: 'walk_in_freezer', application: 'low', boxK: 254 },
  { refrigerant: 'R407C', kind: 'remote_condensing_unit', application: 'medium', boxK: 275.5 },
];

export type SimulationOptions = {
  /** Conductance lost, drawn evenly between these. */
  lost?: readonly [number, number];
  /** Relative standard deviation of the baseline; drawn between 4 and 16 % when absent. */
  baselineSd?: number;
  /** Probability that suction, line temperatures and box were measured as well. */
  measureMore?: number;
};

/** Draws until the made-up unit has a steady state: a badly fouled one in hot air may have none. */
export function simulate(random: RandomStream, options: SimulationOptions = {}): Simulated {
  for (;;) {
    const drawn = draw(random, options);
    if (drawn) return drawn;
  }
}

function draw(
  random: RandomStream,
  { lost = [0, 0.6], baselineSd, measureMore = 0.5 }: SimulationOptions,
): Simulated | null {
  const kitchen = random.pick(FLEET);
  const unit: CondenserUnit = {
    refrigerant: kitchen.refrigerant,
    kind: kitchen.kind,
    application: kitchen.application,
    expansion: 'valve',
    circuitAccess: 'ports',
    condenserKind: 'fin_and_tube',
    placement: 'line',
    boxSetPointK: kitchen.boxK,
    altitudeM: random.between(0, 1500),
    hasHeadControl: false,
    cutoutPaGauge: (kitchen.refrigerant === 'R134a' ? 250 : 400) * PSI,
    nominalCoolingW: random.between(300, 5000),
  };
  const nominal = modelOf(unit);
  if (!nominal) return null;
  const truth: UnitModel = {
    ...nominal,
    compressor: ownCompressor(random, nominal),
    evaporatorUA: nominal.evaporatorUA * Math.exp(random.normal(0, 0.25)),
    superheatK: Math.max(1, random.normal(nominal.superheatK, 4)),
    subcoolingK: Math.max(0, random.normal(nominal.subcoolingK, 2.5)),
  };
  const sd = baselineSd ?? random.between(0.04, 0.16);
  const cleanRise = cleanPrior(unit).cleanRiseK * Math.exp(random.normal(0, 0.1));
  const cleanConductance = conductanceFromRise(nominal, cleanRise);
  const conductance = cleanConductance * (1 - random.between(lost[0], lost[1]));
  const airK = random.between(290, 312);
  const boxK = kitchen.boxK + random.normal(0, 2);
  const state = balance(truth, conductance, { airK, boxK });
  if (state.status !== 'ok') return null;
  const believed = cleanRise * Math.exp(random.normal(0, sd));
  const baseline = { cleanRiseK: believed, sdK: believed * sd, readings: 2 };
  const reading = readWithErrors(random, nominal, state, measureMore);
  return { unit, baseline, reading, truth, cleanConductance, conductance, state };
}

/** The unit's own compressor: constants spread about the typical ones, size as on the plate. */
function ownCompressor(random: RandomStream, nominal: UnitModel): Compressor {
  if (nominal.compressor.by === 'map') return nominal.compressor;
  const { displacement, constants: typical } = nominal.compressor;
  const constants = {
    ...typical,
    ratedEfficiency: typical.ratedEfficiency + random.normal(0, 0.04),
    clearance: typical.clearance * random.between(0.75, 1.25),
    lossGrowth: random.between(0, 0.6),
    shellLoss: typical.shellLoss * random.between(0.6, 1.4),
  };
  const fixedLossW = fixedLossPerDisplacement(nominal.fluid, constants) * displacement;
  return { by: 'constants', constants, displacement, fixedLossW };
}

/** A 1 % gauge of 500 psi, thermometers and clamps of 1 °F, after twenty minutes of running. */
function readWithErrors(random: RandomStream, model: UnitModel, state: SteadyState, measureMore: number): Reading {
  const gauge = { grade: '1A', spanPa: 500 * PSI } as const;
  const lowSide = { grade: '1A', spanPa: 250 * PSI } as const;
  const drift = random.normal(0, STEADY_SCATTER_SD_K);
  const head = model.fluid.dewP(state.condensingDewK + drift) - model.atmospherePa;
  const onPipe = Math.hypot(THERMOMETER_SD_K, CONTACT_SD_K);
  const more = random.chance(measureMore);
  const also = (value: number, sd: number) => (more ? random.normal(value, sd) : undefined);
  return {
    at: 0,
    phase: 'before',
    headPaGauge: head + random.normal(0, gaugeSdPa(gauge, head)),
    airInK: random.normal(state.airK, Math.hypot(THERMOMETER_SD_K, AIR_PLACEMENT_SD_K)),
    suctionPaGauge: also(state.suctionPaGauge, gaugeSdPa(lowSide, state.suctionPaGauge)),
    liquidLineK: also(state.liquidLineK, onPipe),
    suctionLineK: also(state.suctionLineK, onPipe),
    boxK: also(state.boxK, THERMOMETER_SD_K),
    steadyMinutes: 25,
    gauge,
    suctionGauge: lowSide,
  };
}
