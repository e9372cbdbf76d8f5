import type { CauseId } from '../types';

/**
 * What is believed before a reading. Probabilities of causes on a kitchen round: judgement, from how often each is met
 * (from memory); they say how much evidence a rare cause needs.
 */
export const BEFORE: Record<CauseId, number> = {
  nothing: 0.32,
  coil_fouling: 0.24,
  condenser_fan: 0.05,
  blocked_air: 0.05,
  recirculation: 0.05,
  non_condensables: 0.04,
  overcharge: 0.04,
  low_charge: 0.06,
  evaporator_coil: 0.04,
  evaporator_fan: 0.03,
  weak_compressor: 0.03,
  high_load: 0.05,
  head_pressure_control: 0.02,
  not_steady: 0.01,
  reading_fault: 0.02,
};

/** With no word on how long it ran, one reading in twelve is taken too early (judgement). */
export const UNSTEADY_UNKNOWN = 0.08;

/** Deposit or loss of air, −ln(K/K_clean) of the condenser, under each cause that is only seen through it: mean, sd. */
export const LOSS: Partial<Record<CauseId, readonly [number, number]>> = {
  nothing: [0.02, 0.05],
  coil_fouling: [0.42, 0.24],
  blocked_air: [0.6, 0.3],
  condenser_fan: [1.25, 0.4],
  recirculation: [0.06, 0.1],
  high_load: [0.06, 0.1],
};
/** The usual dirt beside any other cause. */
export const USUAL_DIRT: readonly [number, number] = [0.08, 0.13];

/** How a cause shifts an unknown of the machine: mean and sd (judgement; charge and gas as shares, the rest as ln). */
export const SHIFTS = {
  non_condensables: [0.16, 0.08],
  overcharge: [0.28, 0.12],
  low_charge: [-0.22, 0.1],
  restriction: [-0.8, 0.35],
  evaporator_coil: [-0.8, 0.35],
  evaporator_fan: [-1.3, 0.4],
  weak_compressor: [-0.45, 0.18],
} as const;

/** Spread of a sound machine of its kind about its references; `own` is the part that stays with the unit. */
export const SOUND = {
  gas: 0.004,
  lnEvaporator: 0.22,
  lnPump: 0.06,
  gainK: 4.5,
  charge: 0.04,
  lnValve: 0.1,
  overK: 9,
} as const;

/** Model error of the four balances, one sd; set on the outside plant, part A. Expansion: ln flow, or K of superheat. */
export const MODEL_ERROR = { condenser: 0.05, evaporator: 0.06, capillary: 0.08, valveK: 2.5, charge: 0.03 } as const;
/** Share of a unit's own errors that is left against a baseline learnt by the same means. */
export const LEFT_WHEN_LEARNT = 0.45;

/** Box over its set point, K: sound and steady; when a cause eats cooling; under a heavy load. */
export const BOX = { sound: [0, 1.6], failing: [4.5, 4.5], loaded: [9, 5] } as const;
/** Part of units with a cause that still hold their box. */
export const HOLDS = { high_side: 0.65, low_side: 0.4 } as const;

/** Air at the coil over the room, K: usual, and coming round again. */
export const ROOM_TO_COIL = { usual: [1, 1.8], recirculating: [8, 4] } as const;
