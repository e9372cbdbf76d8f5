import type { Improvement, Plan, WeekProblem } from '../../../core/planning';

export type SearchOptions = {
  seed: number;
  timeLimitMs: number;
  onImprovement: (found: Improvement) => void;
  signal: AbortSignal;
};

/** A search for a week's plan, wherever it runs. Rejects with PlanCancelled when the signal is aborted. */
export type Search = (problem: WeekProblem, options: SearchOptions) => Promise<Plan>;
