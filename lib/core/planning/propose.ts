import type { LpSolver } from './bound/lp';
import { neighbourBound } from './bound/neighbour-bound';
import type { Solution } from './search/solution';
import { solveModel } from './solve-model';
import type { CostBreakdown, LeftTask, Plan, PlannedVisit, WeekProblem } from './types';
import { compileWeek } from './week/compile';
import type { CompiledWeek } from './week/compiled';
import { placeFixed } from './week/fixed';
import { leftTasks } from './week/reasons';
import { breakdown, visitsOf } from './week/to-plan';

/** A better plan found on the way: enough to show, without bound and reasons. */
export interface Improvement {
  readonly visits: readonly PlannedVisit[];
  readonly cost: CostBreakdown;
  /** Milliseconds since the start. */
  readonly afterMs: number;
}

export interface ProposeOptions {
  /** The same problem and seed give the same plan, unless time runs out (Plan.finished). */
  readonly seed: number;
  readonly timeLimitMs: number;
  /** Milliseconds from any fixed origin. */
  readonly now: () => number;
  /** Aborting makes the promise reject with PlanCancelled. */
  readonly signal?: AbortSignal;
  readonly onImprovement?: (improvement: Improvement) => void;
  /** Proves bounds and small optima; without it the bound is a weak one. */
  readonly lp?: LpSolver;
  /** How hard to search, 1 if not given: the rounds of ruin and recreate are this times a number that grows with the week. */
  readonly effort?: number;
  /** Awaited every few milliseconds, so that a signal can arrive and others can run (for instance setImmediate). */
  readonly pause?: () => Promise<void>;
}

export class PlanCancelled extends Error {
  constructor() {
    super('Planning was cancelled; nothing was changed.');
    this.name = 'PlanCancelled';
  }
}

const PAUSE_EVERY_MS = 12;

/**
 * Proposes visits for the days planned: what goes in one trip, who drives it and when.
 * Reads its arguments only; nothing exists of a plan until the promise is kept.
 * @throws PlanCancelled when the signal is aborted.
 */
export async function proposeWeek(problem: WeekProblem, options: ProposeOptions): Promise<Plan> {
  const { now, signal, pause } = options;
  const work = planWeek(problem, options);
  try {
    let paused = now();
    for (;;) {
      if (signal?.aborted) throw new PlanCancelled();
      const step = work.next();
      if (step.done) return step.value;
      if (pause && now() - paused >= PAUSE_EVERY_MS) {
        await pause();
        paused = now();
      }
    }
  } finally {
    // Closes whatever the solver still holds, when cancelled or when something threw.
    work.return(undefined as never);
  }
}

/** The same as a generator that yields between small steps, for callers that do their own scheduling. */
export function* planWeek(problem: WeekProblem, options: Omit<ProposeOptions, 'signal' | 'pause'>): Generator<void, Plan, void> {
  const { seed, timeLimitMs, now, onImprovement } = options;
  const began = now();
  let week = compileWeek(problem);
  let { start, clashes } = placeFixed(week);
  const lost: LeftTask[] = [];
  if (clashes.length > 0) {
    const message =
      'Its fixed visit overlaps another of the same technician, drive included. It stays and nothing else is planned at its time, but not the drive to it either.';
    lost.push(
      ...clashes.flatMap((visit) => visit.taskIds.map((taskId) => ({ taskId, reason: { code: 'fixed_clash' as const, message } }))),
    );
    const gone = new Set(clashes.flatMap((visit) => visit.taskIds));
    const kept = clashes;
    week = compileWeek(
      {
        ...problem,
        fixed: problem.fixed?.filter((visit) => !kept.includes(visit)),
        tasks: problem.tasks.filter((task) => !gone.has(task.id)),
      },
      kept,
    );
    ({ start, clashes } = placeFixed(week));
  }
  const report = (solution: Solution): void =>
    onImprovement?.({
      visits: visitsOf(week, solution).visits,
      cost: breakdown(week, solution),
      afterMs: now() - began,
    });
  const solved = yield* solveModel(week.model, {
    seed,
    start,
    iterations: roundsFor(week, options.effort ?? 1),
    lp: options.lp,
    floor: neighbourBound(week.model),
    remainingMs: () => began + timeLimitMs - now(),
    onImprovement: report,
  });
  const { solution, proven, searched } = solved;
  const cost = breakdown(week, solution);
  const bound = solved.bound - week.jobs.reduce((sum, { firstVisit }) => sum + firstVisit, 0);
  const { unplaced, later } = leftTasks(week, solution);
  return {
    ...visitsOf(week, solution),
    unplaced: [...lost, ...unplaced],
    later,
    cost,
    lowerBound: Math.min(bound, cost.total),
    gap: cost.total > 0 ? Math.max(0, (cost.total - bound) / cost.total) : 0,
    proven,
    seed,
    finished: searched,
  };
}

/** Rounds that keep a week of forty kitchens and five technicians well under three seconds. */
function roundsFor({ model }: CompiledWeek, effort: number): number {
  const work = model.jobs.length * model.shifts.length;
  if (work === 0) return 0;
  return Math.round(effort * Math.min(100 * model.jobs.length, 300 + 4_000_000 / work));
}
