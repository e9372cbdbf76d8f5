import type { FillerJoint, SealedStep } from './steps';
import type { VacuumReading } from './vacuum-decay';
import type { TubeSize } from './tubing';

export const RECOVERED_FOR = ['reuse', 'reclaim', 'destruction'] as const;
export type RecoveredFor = (typeof RECOVERED_FOR)[number];
export const RECOVERED_FOR_LABEL: Record<RecoveredFor, string> = {
  reuse: 'For reuse',
  reclaim: 'To be reclaimed',
  destruction: 'To be destroyed',
};

/** A cylinder on the scale before and after, cylinder and all, kg. One that is not on file is named in words. */
export type Weighed = { cylinderId: string | null; cylinderWords: string; startKg: number; endKg: number };

/** A length of tube that was changed: what it was and what it is now. */
export type ChangedTube = { line: TubeLine; before: TubeSize | null; now: TubeSize | null; lengthM: number };
export const TUBE_LINES = ['liquid', 'suction', 'discharge'] as const;
export type TubeLine = (typeof TUBE_LINES)[number];
export const TUBE_LINE_LABEL: Record<TubeLine, string> = { liquid: 'Liquid line', suction: 'Suction line', discharge: 'Discharge line' };

export type PressureAt = { at: string; paGauge: number; temperatureK: number };

/** What a repair record keeps of each step. Plain data in SI; times are ISO instants. */
export type SealedWork =
  | {
      step: 'isolate';
      provenDead: boolean;
      /** Where the charge burns or may: what was seen to first. Room in m². */
      flammable: { ventilated: boolean; detector: boolean; noIgnition: boolean; roomM2: number | null } | null;
    }
  | ({ step: 'recover'; levelPaGauge: number | null; recoveredFor: RecoveredFor } & Weighed)
  | { step: 'open'; how: string }
  | { step: 'braze'; joints: { joint: FillerJoint; count: number }[]; nitrogen: boolean; wetRag: boolean; fireWatchMinutes: number }
  | {
      step: 'drier';
      /** What was fitted, in the words on it; inner volumes in m³ where known. */
      drier: string;
      drierBeforeM3: number | null;
      drierNowM3: number | null;
      condenserBeforeM3: number | null;
      condenserNowM3: number | null;
      capillary: { boreM: number; lengthM: number } | null;
      tubes: ChangedTube[];
    }
  | { step: 'pressure_test'; platePaGauge: number | null; gaugeDivisionPa: number; start: PressureAt; end: PressureAt }
  | { step: 'evacuate'; limitMicrons: number; readings: VacuumReading[] }
  | ({ step: 'charge'; plateKg: number | null; targetKg: number | null; band: readonly [number, number] | null } & Weighed)
  | { step: 'running_check'; readingId: string; minutes: number };

export type WorkOf<S extends SealedStep> = Extract<SealedWork, { step: S }>;

/** One step of a record as it was written down. */
export type SealedStepEntry = {
  id: string;
  recordId: string;
  unitId: string;
  step: SealedStep;
  work: SealedWork | null;
  skippedWhy: string;
  certificateId: string | null;
  overruledBy: string;
  overruledWhy: string;
  note: string;
  at: string;
};

/** Work on a unit's circuit that began at an earlier visit and is not finished. */
export type OpenRecord = { recordId: string; steps: SealedStepEntry[] };
