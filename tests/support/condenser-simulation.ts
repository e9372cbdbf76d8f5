import { balance, type SteadyState } from '@/lib/core/condenser/machine/balance';
import { cleanPrior, type CleanBaseline, type Conditions, type CondenserUnit, type Reading } from '@/lib/core/condenser';
import {
  AIR_PLACEMENT_SD_K,
  CONTACT_SD_K,
  gaugeSdPa,
  STEADY_SCATTER_SD_K,
  THERMOMETER_SD_K,
} from '@/lib/core/condenser/readings/instruments';
import type { Compressor } from '@/lib/core/condenser/compressor/compressor';
import { see } from '@/lib/core/condenser/machine/inverse';
import { conductanceFromRise, modelOf, type UnitModel } from '@/lib/core/condenser/machine/model';
import { meansOf, resolve } from '@/lib/core/condenser/readings/resolve';
import { type RandomStream } from '@/lib/core/numerics/random';
import type { UnitKind } from '@/lib/core/equipment/build';

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
  /** Relative standard deviation of a learnt baseline; when absent, half are learnt to 3–8 % and half are the prior. */
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

function draw(random: RandomStream, { lost = [0, 0.6], baselineSd, measureMore = 0.5 }: SimulationOptions): Simulated | null {
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
  const prior = cleanPrior(unit);
  const spread = prior.sdK / prior.cleanRiseK;
  const cleanConductance = conductanceFromRise(nominal, prior.cleanRiseK * Math.exp(random.normal(0, spread)));
  const conductance = cleanConductance * (1 - random.between(lost[0], lost[1]));
  const state = balance(truth, conductance, {
    airK: random.between(290, 312),
    boxK: kitchen.boxK + random.normal(0, 2),
  });
  if (state.status !== 'ok') return null;
  const more = random.chance(measureMore);
  const reading = readWithErrors(random, nominal, state, more);
  const learnt = baselineSd !== undefined || random.chance(0.5);
  const baseline = learnt
    ? learntBaseline(random, unit, { nominal, truth, cleanConductance, more }, baselineSd ?? random.between(0.03, 0.08))
    : prior;
  return baseline && { unit, baseline, reading, truth, cleanConductance, conductance, state };
}

type Cleaned = { nominal: UnitModel; truth: UnitModel; cleanConductance: number; more: boolean };

/**
 * What readings of the cleaned coil, taken the same way, would have taught: the clean rise as this unit shows it
 * through the usual assumptions, known to within `sd`.
 */
function learntBaseline(random: RandomStream, unit: CondenserUnit, of: Cleaned, sd: number): CleanBaseline | null {
  const at = { airK: random.between(292, 306), boxK: unit.boxSetPointK };
  const state = balance(of.truth, of.cleanConductance, at);
  const resolved = state.status === 'ok' ? resolve(unit, of.nominal, readWithErrors(null, of.nominal, state, of.more)) : null;
  if (!resolved) return null;
  const shown = of.nominal.designDutyW / see(of.nominal, resolved).conductanceWK;
  const believed = shown * Math.exp(random.normal(0, sd));
  return { cleanRiseK: believed, sdK: believed * sd, readings: 3, means: meansOf(resolved) };
}

/** The unit's own compressor: constants spread about the typical ones, size as on the plate. */
function ownCompressor(random: RandomStream, nominal: UnitModel): Compressor {
  if (nominal.compressor.by === 'map') return nominal.compressor;
  const { displacement, constants: typical } = nominal.compressor;
  const constants = {
    ...typical,
    ratedEfficiency: typical.ratedEfficiency + random.normal(0, 0.04),
    clearance: typical.clearance * random.between(0.75, 1.25),
    efficiencyFall: typical.efficiencyFall * random.between(0.4, 1.6),
    shellLoss: typical.shellLoss * random.between(0.6, 1.4),
  };
  return { by: 'constants', constants, displacement };
}

/** A 1 % gauge of 500 psi, thermometers and clamps of 1 °F, after twenty minutes of running; no errors without a stream. */
function readWithErrors(random: RandomStream | null, model: UnitModel, state: SteadyState, more: boolean): Reading {
  const gauge = { grade: '1A', spanPa: 500 * PSI } as const;
  const lowSide = { grade: '1A', spanPa: 250 * PSI } as const;
  const off = (value: number, sd: number) => value + (random?.normal(0, sd) ?? 0);
  const head = model.fluid.dewP(off(state.condensingDewK, STEADY_SCATTER_SD_K)) - model.atmospherePa;
  const onPipe = Math.hypot(THERMOMETER_SD_K, CONTACT_SD_K);
  const also = (value: number, sd: number) => (more ? off(value, sd) : undefined);
  return {
    at: 0,
    phase: 'before',
    headPaGauge: off(head, gaugeSdPa(gauge, head)),
    airInK: off(state.airK, Math.hypot(THERMOMETER_SD_K, AIR_PLACEMENT_SD_K)),
    suctionPaGauge: also(state.suctionPaGauge, gaugeSdPa(lowSide, state.suctionPaGauge)),
    liquidLineK: also(state.liquidLineK, onPipe),
    suctionLineK: also(state.suctionLineK, onPipe),
    boxK: also(state.boxK, THERMOMETER_SD_K),
    steadyMinutes: 25,
    gauge,
    suctionGauge: lowSide,
  };
}
