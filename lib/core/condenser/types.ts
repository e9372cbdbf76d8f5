import type { Application, CircuitAccess, CondenserKind, Expansion, Placement, UnitKind } from '../equipment/build';
import type { AirProfile, ThermometerClass } from '../equipment/unit-fields';
import type { CoilGrade, FanGrade, GradeOf } from '../findings/grades';
import type { CompressorMap } from './compressor/ten-coefficient';

/**
 * Everything here is SI: kelvin, pascal, watt, second. Names end in the unit where it is not plain.
 * `PaGauge` is above the local atmosphere, `Pa` alone is absolute.
 */

export const BAND_LEVEL = 0.8;
/** A value with the band that holds the truth with probability `level`. A figure without a band is never shown. */
export type Figure = { value: number; lo: number; hi: number; level: typeof BAND_LEVEL };

/** What must be known of a unit before one of its readings means anything. */
export type CondenserUnit = {
  /** An id of the refrigerants room, for instance `R134a`, `R448A`. */
  refrigerant: string;
  kind: UnitKind;
  application: Application;
  expansion: Expansion;
  circuitAccess: CircuitAccess;
  condenserKind: CondenserKind;
  placement: Placement;
  boxSetPointK: number;
  altitudeM: number;
  /** High-pressure cut-out; without it no trip temperature is given. */
  cutoutPaGauge?: number;
  chargeKg?: number;
  /** Fan cycling or a head-pressure valve holds the head up in cold air. Unknown when absent. */
  hasHeadControl?: boolean;
  /** Condensing temperature that the control holds; a typical one is taken when absent. */
  headControlHoldK?: number;
  compressorMap?: CompressorMap;
  /** Cooling at the design point of its kind; a wide guess by kind is taken when absent. */
  nominalCoolingW?: number;
  /** Compressor hours on a usual day; typical of the kind when absent. */
  runHoursPerDay?: number;
  /** Air into the coil over the room's on a usual day, K; and how it goes over the year. Unknown when absent. */
  airOverRoomK?: number;
  airProfile?: AirProfile;
  /** Of what the readings are taken with. */
  thermometerClass?: ThermometerClass;
};

/** Accuracy grades of ASME B40.100 for dial gauges, plus digital ones stated in the same letters. */
export const GAUGE_GRADES = ['4A', '3A', '2A', '1A', 'A', 'B', 'C', 'D'] as const;
export type GaugeGrade = (typeof GAUGE_GRADES)[number];
export type Gauge = { grade: GaugeGrade; spanPa: number };

export const READING_PHASES = ['before', 'after', 'log'] as const;
export type ReadingPhase = (typeof READING_PHASES)[number];

/** What a technician could measure. Either head pressure or a clamp on a mid-condenser bend is needed, and air. */
export type Reading = {
  /** Epoch milliseconds. */
  at: number;
  /** Before or after the cleaning of this visit, or a data logger's row. */
  phase: ReadingPhase;
  headPaGauge?: number;
  /** Clamp on a mid-condenser return bend, for sealed units that should not get gauges. */
  condensingClampK?: number;
  /** Air at the coil's face, not in the room. */
  airInK?: number;
  /** Head and coil air once more, each with another instrument, where the first is doubted. */
  headAgainPaGauge?: number;
  airAgainK?: number;
  roomAirK?: number;
  suctionPaGauge?: number;
  liquidLineK?: number;
  suctionLineK?: number;
  dischargeLineK?: number;
  /** Kept on file; not in the sums: without the motor's curve it tells little, and at low temperature hardly moves. */
  ampsA?: number;
  boxK?: number;
  /** Of a water-cooled condenser, and an ice machine's harvest: kept on file; not in the sums. */
  waterInK?: number;
  waterOutK?: number;
  harvestMinutes?: number;
  /** Minutes of steady running before the reading. */
  steadyMinutes?: number;
  /** Standing pressure with compressor off and condenser at air temperature. */
  offCyclePaGauge?: number;
  offCycleAirK?: number;
  /** An error of 1 % of 500 psi (800 psi for high-pressure refrigerants) is taken when absent, and said. */
  gauge?: Gauge;
  /** Low-side gauge; same grade and half the span of the other when absent, as on a service manifold. */
  suctionGauge?: Gauge;
  /** One standard deviation of thermometers and clamps; 1 °F when absent. */
  thermometerSdK?: number;
  coilGrade?: CoilGrade;
  /** Of the condenser's fan. */
  fanGrade?: FanGrade;
  airPathGrade?: GradeOf<'air_path'>;
  evaporatorFanGrade?: FanGrade;
  evaporatorCoilGrade?: GradeOf<'evaporator_coil'>;
  iceGrade?: GradeOf<'ice'>;
};

/** What is believed of the clean rise at the unit's design load: log-normal, `sdK` being mean × log sd. */
export type CleanBaseline = {
  cleanRiseK: number;
  sdK: number;
  /** Readings after a cleaning that went into it; 0 is the prior by kind of equipment. */
  readings: number;
  /** How those readings were taken: errors that stay with the unit cancel only against readings taken the same way. */
  means?: string;
  /** How its sound machine stood apart from what is usual for its kind at those readings. */
  own?: OwnMachine;
};

/**
 * How a machine differs from what is usual for its kind with nothing wrong: ln of evaporator conductance, of pumping and of the
 * expansion device's capacity; warming of the suction line as a part of how much warmer the liquid is; charge as a share of the
 * condenser; discharge gas over the compressor law, K. Only what the instruments could tell.
 */
export type OwnMachine = Partial<Record<OwnPart, number>>;
export const OWN_PARTS = ['lnEvaporator', 'lnPumping', 'lnExpansion', 'gain', 'charge', 'overK'] as const;
export type OwnPart = (typeof OWN_PARTS)[number];

/** A rise brought to design load. */
export type DesignRise = Figure & {
  /** Standard deviation of its logarithm from one reading to the next, without the errors that stay with the unit. */
  repeatSd: number;
  means: string;
  /** Of a reading after a cleaning: what it told of the machine beside its coil. */
  own?: OwnMachine;
};

export type AirShare = { airK: number; share: number };

/** Where and at what price the consequences are worked out. */
export type Conditions = {
  /** Air at the coil inlet on a hot day in this kitchen. */
  hotDayAirK: number;
  boxK: number;
  energyPricePerKwh: number;
  /** ISO 4217, carried through untouched. */
  currency: string;
  /** Compressor hours a day when clean; typical of the kind when absent. */
  cleanRunHoursPerDay?: number;
  /** Coil-inlet air over a usual day; the hot day's air less 6 K when absent. Shares are normalised. */
  airProfile?: readonly AirShare[];
};

/** An earlier estimate of the same unit, since its last cleaning, oldest first. */
export type PastLoss = { at: number; lost: number; sd: number };

export const CAUSES = [
  'nothing',
  'coil_fouling',
  'condenser_fan',
  'blocked_air',
  'recirculation',
  'non_condensables',
  'overcharge',
  'low_charge',
  'evaporator_coil',
  'evaporator_fan',
  'weak_compressor',
  'high_load',
  'head_pressure_control',
  'not_steady',
  'reading_fault',
] as const;
export type CauseId = (typeof CAUSES)[number];

export type Cause = {
  id: CauseId;
  /** Share of belief among the candidates, 0–1; they sum to 1. */
  weight: number;
  for: string[];
  against: string[];
  /** The one reading or look that would decide for or against it. */
  next: string;
};

/** A question to whoever typed an entry. `leftOut`: it cannot be so, and is kept out of the sums until answered. */
export type Doubt = { field: keyof Reading; question: string; leftOut?: true };

export const VERDICTS = ['clean_it', 'look_first', 'look_elsewhere', 'watch', 'fine', 'cannot_say'] as const;
export type Verdict = (typeof VERDICTS)[number];

export const CANNOT_SAY_REASONS = [
  'no_condensing_reading',
  'no_air_reading',
  'not_steady',
  'head_control',
  'water_cooled',
  'above_critical',
  'out_of_range',
  'rise_too_small',
  'impossible_reading',
  'unknown_refrigerant',
  'not_converged',
] as const;
export type CannotSayReason = (typeof CANNOT_SAY_REASONS)[number];

/** Mean of bubble and dew is what drives heat transfer; the compressor works against the dew pressure. */
export type Measured = { condensingK: Figure; condensingDewK: Figure; riseK: Figure };

export type NowAndClean = { now: Figure; clean: Figure };

export type EstimateOk = Measured & {
  status: 'ok';
  /** Rise this unit would show at this reading's load with a clean coil. */
  cleanRiseK: Figure;
  /** This reading's rise brought to the unit's design load: what a baseline learns from. */
  designRiseK: DesignRise;
  /** 1 − K/K_clean, a fraction. Not the same as cooling lost. */
  conductanceLost: Figure;
  /** Fraction of cooling lost at the hot day, box at `conditions.boxK`; null where head would leave the valid range. */
  coolingLostHotDay: Figure | null;
  extraEnergyKwhPerDay: Figure | null;
  extraCostPerDay: (Figure & { currency: string }) | null;
  /** True when the fouled unit could not hold the box even running all day on the usual day. */
  cannotKeepUp: boolean;
  dischargeHotDayK: NowAndClean | null;
  headHotDayPaGauge: NowAndClean | null;
  /** Coil-inlet air at which head reaches the cut-out; null without a known cut-out. */
  cutoutAirK: NowAndClean | null;
  causes: Cause[];
  /** What to look at or read next, by how much it would tell of the cause, most telling first. */
  lookNext: { look: string; instruction: string; bits: number }[];
  verdict: Exclude<Verdict, 'cannot_say'>;
  sentence: string;
  doubts: Doubt[];
  /** What was taken for granted, in words, money's included. */
  assumptions: string[];
};

export type EstimateCannotSay = Partial<Measured> & {
  status: 'cannot_say';
  reason: CannotSayReason;
  causes: Cause[];
  verdict: 'cannot_say';
  sentence: string;
  doubts: Doubt[];
};

export type Estimate = EstimateOk | EstimateCannotSay;
