import type { Estimate } from '../condenser/types';
import type { TripCause } from '../findings/trip-causes';
import type { FindingPhase, Outcome, ReadingValues, UnitEventKind } from '../entries/entries';
import type { Aspect, Grade } from '../findings/grades';
import type { PartPlace } from '../parts/places';
import type { JobState } from '../jobs/states';
import type { OutcomeEntry, VisitStatus } from './state';

/** A visit as the office reads it: everything that came of it, entries that were replaced included. Times are epoch milliseconds. */

export type FindingReport = {
  id: string;
  aspect: Aspect;
  grade: Grade | null;
  why: string;
  phase: FindingPhase;
  note: string;
  at: number;
  by: string;
  superseded: boolean;
};

export type ReadingReport = {
  id: string;
  phase: 'before' | 'after' | 'log';
  at: number;
  by: string;
  superseded: boolean;
  values: ReadingValues;
  questioned: { question: string; answer: string }[];
  estimate: Estimate | null;
};

export type PhotoReport = { id: string; fileId: string | null; aspect: Aspect | null; phase: 'before' | 'after'; takenAt: number };

/** Of a unit, or of the visit as a whole. */
export type PartReport = { id: string; unitId: string | null; what: string; quantity: number; place?: PartPlace | null };
export type FoodWarningReport = { id: string; unitId: string; boxK: number; toldTo: string; toldAt: number; note: string };

/** A unit with all that the visit says about it, planned or not. */
export type UnitReport = {
  id: string;
  name: string;
  archived: boolean;
  outcome: Pick<OutcomeEntry, 'outcome' | 'reason'> | null;
  tasks: { id: string; kind: string; label: string; outcome: 'planned' | 'done' | 'not_done'; reason: string }[];
  findings: FindingReport[];
  readings: ReadingReport[];
  photos: PhotoReport[];
  followUps: { id: string; number: number; what: string; state: JobState }[];
  events: { id: string; kind: UnitEventKind; note: string; cause: TripCause | null }[];
  parts: PartReport[];
  foodWarnings: FoodWarningReport[];
};

export type EntryReport = {
  id: string;
  what: string;
  by: string;
  device: string;
  madeAt: number;
  receivedAt: number;
  outcome: Outcome;
  note: string;
  /** By how much the tablet's clock was put right, ms. */
  correctedMs: number;
};

export type RuleChangeReport = {
  id: string;
  unit: { id: string; name: string };
  task: string;
  fromRule: string;
  toRule: string;
  toDueOn: string | null;
  reason: string;
};

export type VisitReport = {
  id: string;
  status: VisitStatus;
  startsAt: number;
  endsAt: number;
  arrivedAt: number | null;
  leftAt: number | null;
  cancelReason: string;
  technician: { id: string; name: string };
  kitchen: { id: string; name: string; timeZone: string; customer: { id: string; name: string } };
  /** `png` is base64. */
  signature: { nobody: true } | { nobody: false; by: string; png: string } | null;
  parts: PartReport[];
  foodWarnings: FoodWarningReport[];
  /** Of no unit in particular. */
  photos: PhotoReport[];
  /** Closed, but its estimates and rules could not be brought up to date. */
  notRevised: boolean;
  units: UnitReport[];
  changes: RuleChangeReport[];
  entries: EntryReport[];
};
