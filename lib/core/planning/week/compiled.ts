import type { Model } from '../model/model';
import type { FixedVisit, Kitchen, PlanTask, Shift, Technician, WeekProblem } from '../types';
import type { Sifted } from './sift';

/** A week as the solvers see it, and the way back to its names. */
export interface CompiledWeek {
  readonly problem: WeekProblem;
  readonly sifted: Sifted;
  readonly model: Model;
  /** Minute 0 of the model. */
  readonly originMs: number;
  readonly shifts: readonly { readonly technician: Technician; readonly shift: Shift }[];
  readonly jobs: readonly CompiledJob[];
  /** Tasks never worth doing on these days. */
  readonly always: readonly PlanTask[];
}

export interface CompiledJob {
  readonly kitchen: Kitchen;
  /** Tasks by item; one item and all its tasks for a fixed visit. */
  readonly tasks: readonly PlanTask[];
  readonly fixed: FixedVisit | null;
  /** What the model charges for the first visit or for none at all: in every plan alike, so it is no cost of any. */
  readonly firstVisit: number;
}
