import {
  cleanPrior,
  conductanceOf,
  steadyState,
  type CompressorMap,
  type CondenserUnit,
  type Conditions,
  type Reading,
} from '@/lib/core/condenser';
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
