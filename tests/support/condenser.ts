import {
  cleanPrior,
  conductanceOf,
  steadyState,
  type CompressorMap,
  type CondenserUnit,
  type Conditions,
  type Reading,
} from '@/lib/core/condenser';
import { machineOf, newOutcome } from '@/lib/core/condenser/inference/equations';
import { settle } from '@/lib/core/condenser/inference/forward';
import { CHARGE } from '@/lib/core/condenser/inference/state';
import { profileOf } from '@/lib/core/condenser/machine/profiles';
import type { SteadyState } from '@/lib/core/condenser';

export const PSI = 6894.757293168;
/** °F to K. */
export const F = (t: number) => (t + 459.67) / 1.8;

export const REACH_IN: CondenserUnit = {
  refrigerant: 'R134a',
  kind: 'reach_in',
  application: 'medium',
  expansion: 'capillary',
  circuitAccess: 'ports',
  condenserKind: 'fin_and_tube',
  placement: 'line',
  boxSetPointK: F(38),
  altitudeM: 0,
  cutoutPaGauge: 250 * PSI,
};

/** ACHP, ComponentTests/CompressorTest.py: °F, lb/h, W. */
export const ACHP_MAP: CompressorMap = {
  units: 'F_lb_per_h',
  ratedSuperheatK: 11.1,
  massFlow: [217.3163128, 5.094492028, -0.593170311, 0.0438, -0.0214, 0.0104, 7.9e-5, -5.73e-5, 1.79e-4, -8.08e-5],
  power: [-561.3615705, -15.62601841, 46.92506685, -0.217949552, 0.435062616, -0.442400826, 2.25e-4, 2.37e-3, -3.32e-3, 2.5e-3],
};

export const CONDITIONS: Conditions = { hotDayAirK: F(100), boxK: F(38), energyPricePerKwh: 0.2, currency: 'USD' };

/** A baseline learnt from many readings after cleanings. */
export const LEARNT = { ...cleanPrior(REACH_IN), sdK: 0.4, readings: 6 };

/** The unit's steady state with this part of its clean conductance left. */
export function stateAt(unit: CondenserUnit, left: number, airK: number, boxK = unit.boxSetPointK): SteadyState {
  const clean = conductanceOf(unit, cleanPrior(unit).cleanRiseK);
  const state = steadyState(unit, (clean ?? NaN) * left, { airK, boxK });
  if (state.status !== 'ok') throw new Error(state.message);
  return state;
}

/** What a good technician would note of a steady state, all of it, with fine instruments and no error. */
export function readingOf(state: SteadyState, more: Partial<Reading> = {}): Reading {
  return {
    at: Date.UTC(2026, 5, 1),
    phase: 'before',
    headPaGauge: state.headPaGauge,
    airInK: state.airK,
    suctionPaGauge: state.suctionPaGauge,
    liquidLineK: state.liquidLineK,
    suctionLineK: state.suctionLineK,
    boxK: state.boxK,
    steadyMinutes: 30,
    gauge: { grade: '2A', spanPa: 500 * PSI },
    thermometerSdK: 0.3,
    ...more,
  };
}

/**
 * The same of a machine of the kind as the inference has it, settled in air of `airK`: with a tube it is fed by head and charge, so that its
 * superheat and subcooling change with the air as they do in a kitchen. `overfilled`: charge over the usual, as a share of the condenser.
 */
export function settledReading(unit: CondenserUnit, airK: number, overfilled = 0, more: Partial<Reading> = {}): Reading {
  const machine = machineOf(unit, profileOf(unit.kind, unit.application));
  if (!machine) throw new Error('no machine');
  const x = Float64Array.from(machine.design);
  x[CHARGE] = overfilled;
  const o = newOutcome();
  if (!settle(machine, x, { airK, boxK: unit.boxSetPointK }, o)) throw new Error('does not settle');
  return {
    at: Date.UTC(2026, 5, 1),
    phase: 'before',
    steadyMinutes: 30,
    airInK: airK,
    boxK: unit.boxSetPointK,
    headPaGauge: o.headPa - 101325,
    suctionPaGauge: o.suctionPa - 101325,
    liquidLineK: o.liquidK,
    suctionLineK: o.suctionK,
    coilGrade: 'bare',
    fanGrade: 'sound',
    ...more,
  };
}
