import type { CoilGrade } from '../../findings/grades';
import type { CauseId, Reading } from '../types';

/**
 * What is believed before a reading. Probabilities of causes on a kitchen round: judgement, from how often each is met
 * (from memory); they say how much evidence a rare cause needs.
 */
export const BEFORE: Record<CauseId, number> = {
  nothing: 0.14,
  coil_fouling: 0.33,
  condenser_fan: 0.055,
  blocked_air: 0.06,
  recirculation: 0.055,
  non_condensables: 0.045,
  overcharge: 0.045,
  low_charge: 0.12,
  evaporator_coil: 0.06,
  evaporator_fan: 0.025,
  weak_compressor: 0.035,
  high_load: 0.04,
  head_pressure_control: 0.02,
  not_steady: 0.006,
  reading_fault: 0.025,
};

/** With no word on how long it ran, one reading in twelve is taken too early (judgement). */
export const UNSTEADY_UNKNOWN = 0.08;

/**
 * A bad instrument: the part of them that is the one which reads condensing, the air's thermometer, each of the others; how far a gauge
 * strays (a part of what it shows), a clamp, and how far air is read too warm or too cold, K. Set on the outside plant, part A.
 */
export const OFF = { condensing: 0.35, air: 0.35, other: 0.06, pressure: 0.16, lineK: 15, airK: [6, 2] } as const;

/** How much likelier air coming round again is where only the room's was read: people read the room where the coil is hard to reach (judgement). */
export const UNREAD_AIR = 2;

type Shape = readonly (readonly [mean: number, sd: number, share: number])[];
/**
 * Deposit or loss of air, −ln(K/K_clean) of the condenser, under each cause that is only seen through it: a mixture of
 * normals. A fan may be dead or only slow.
 */
export const LOSS: Partial<Record<CauseId, Shape>> = {
  nothing: [[0.02, 0.04, 1]],
  coil_fouling: [[0.42, 0.24, 1]],
  blocked_air: [[0.75, 0.24, 1]],
  condenser_fan: [[1.45, 0.35, 0.5], [0.5, 0.17, 0.5]],
  recirculation: [[0.04, 0.08, 1]],
  high_load: [[0.04, 0.08, 1]],
}; // prettier-ignore
/** The usual dirt beside any other cause. */
export const USUAL_DIRT: readonly [number, number] = [0.05, 0.1];
/** The same of a coil that was looked at, as an eye's steps and its error leave it open: a coil can be furred whatever else is wrong (judgement). */
const DIRT_SEEN: Readonly<Record<CoilGrade, readonly [number, number]>> = {
  bare: [0.05, 0.08],
  filmed: [0.07, 0.09],
  furred: [0.16, 0.11],
  matted: [0.28, 0.14],
  packed: [0.4, 0.2],
};

/** The same where only the figure is asked for, not the cause: wide enough that a band holds at every depth of dirt. */
export const LOOSE_DIRT: readonly [number, number] = [0.15, 0.4];

/** How a cause shifts an unknown of the machine: mean and sd (judgement; charge and gas as shares, the rest as ln). */
export const SHIFTS = {
  non_condensables: [0.13, 0.04],
  overcharge: { capillary: [0.28, 0.1], valve: [0.22, 0.075] },
  /** Without a receiver the evaporator gives up liquid first: the same leak is a larger share. */
  low_charge: { capillary: [-0.2, 0.1], valve: [-0.21, 0.085] },
  /** A valve opens further before it starves: what is met is a plainer one. */
  restriction: { capillary: [-0.3, 0.15], valve: [-0.85, 0.3] },
  /** Ice takes more of it than dirt. */
  evaporator_coil: { ice: [-1.05, 0.35], dirt: [-0.42, 0.2] },
  evaporator_fan: [-1.45, 0.28],
  /** By the kind of unit, as capillaries sit on small sealed machines. */
  weak_compressor: { capillary: [-0.25, 0.13], valve: [-0.39, 0.15] },
} as const;

/** Spread of a sound machine of its kind about its references; `own` is the part that stays with the unit. */
export const SOUND = {
  gas: 0.004,
  lnEvaporator: 0.15,
  lnPump: 0.04,
  gain: { capillary: 0.13, valve: 0.07 },
  charge: { capillary: 0.046, valve: 0.039 },
  lnValve: 0.08,
  /** Between machines of a make 6; makes differ by some 2.5 more (judgement; wider than part A, which is one make). */
  overK: 6.5,
  /**
   * Gas at the discharge against the compressor law, K: more goes through the shell. Set on the outside plant, part A; an ice machine's on the
   * makes of A and C to H together, a valve's at medium temperature and a display case's among them on A and C to I.
   */
  overMeanK: { capillary: { medium: -4, low: -16.5 }, valve: { medium: 3, low: -5.5 }, ice: 10, display: 8.5 },
} as const;

/** Three capillary tubes in ten hang free of the suction line, which then warms by the room alone: warming as in `gain`, and its spread (judgement). */
export const BARE_TUBE = { share: 0.3, gain: [0.12, 0.08] } as const;

/** Model error of the four balances, one sd; set on the outside plant, part A. Expansion: ln flow, or K of superheat. */
export const MODEL_ERROR = { condenser: 0.04, evaporator: 0.05, capillary: 0.06, valveK: 2, charge: 0.015 } as const;
/** Share of a unit's own errors that is left against a baseline learnt by the same means. */
export const LEFT_WHEN_LEARNT = 0.45;

/**
 * How far the evidence of the equations is trusted, as a power of it: they are not the machine, and their errors hang together
 * more than the priors say. Set on the outside plant, part A, so that causes come as often as they are told.
 */
export const TRUST = 0.8;

/**
 * Model error of what is lost, as a part of it (ln), and the part of a reading's error that is left: at a first reading, whose
 * errors partly hang together with the usual clean value's, and where the same van read the baseline. Set on the outside plant, part A.
 */
export const DEPTH_ERROR = 0.2;
export const FIRST = 0.8;
export const REPEATED = 0.42;

/**
 * A machine not yet steady: head not up and suction not down yet, as if both coils were larger (ln, and spread); shell and lines still
 * cold, so that discharge gas is under the compressor law (K, and spread); the suction line's warming; and how roughly its other
 * balances hold (ln; a valve's superheat in K). Set on the outside plant, part A.
 */
export const SETTLING = {
  condenser: [0.4, 0.35],
  evaporator: [0.5, 0.4],
  over: [-10, 14],
  gain: 0.3,
  /** What it says of its coil is open by this (ln; judgement). */
  coil: 0.4,
  balance: 0.1,
  charge: 0.2,
  capillary: 0.4,
  valveK: 5,
} as const;

/** Box over its set point, K: sound and steady; when a cause eats cooling; under a heavy load. */
export const BOX = { sound: [0.4, 1.4], failing: [2.6, 3.2], loaded: [9.5, 4.5] } as const;
/** Part of units with a cause that still hold their box. */
export const HOLDS = { high_side: 0.65, low_side: 0.62 } as const;

/** How often a machine with a fault is met under a heavy load as well (judgement). */
export const LOADED_TOO = 0.08;

/**
 * Air at the coil over the room, K: usual where both were read, where only the room's was, and coming round again (judgement). What
 * comes round is a part of what the coil itself warms its air by, so that a little is met as often as much.
 */
export const ROOM_TO_COIL = {
  usual: [0.4, 0.8],
  unread: [0.8, 1.5],
  recirculating: [8, 3.5],
  round: [[4.5, 2], [9, 3.5]],
} as const; // prettier-ignore

/** Dirt beside another cause, −ln(K/K_clean). */
export const dirtBeside = ({ coilGrade }: Reading): readonly [number, number] => (coilGrade ? DIRT_SEEN[coilGrade] : USUAL_DIRT);
