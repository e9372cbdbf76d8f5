import type { LpSolver } from '../../lib/core/planning/bound/lp';
import { neighbourBound } from '../../lib/core/planning/bound/neighbour-bound';
import { solveModel } from '../../lib/core/planning/solve-model';
import { runOut } from '../../lib/core/planning/steps';
import { solveTour } from './tour/solve-tour';
import { tourFloor } from './tour/tour-floor';
import { InstanceError } from './parse-error';
import { parseSolomon } from './solomon';
import { looksLikeTsplib, parseTsplib } from './tsplib';
import { vrptwModel } from './vrptw-model';

export interface InstanceOptions {
  readonly truncate?: number;
  readonly vehicles?: number;
  readonly capacity?: number;
  readonly seed: number;
  readonly lp?: LpSolver;
  readonly remainingMs: () => number;
}

/** Distances are in the file's own unit. */
export interface InstanceAnswer {
  readonly kind: 'routes' | 'tour';
  readonly name: string;
  readonly distance: number;
  readonly vehicles: number;
  /** Customers (places of a tour) in order, depot not repeated. */
  readonly routes: readonly (readonly string[])[];
  readonly unserved: readonly string[];
  readonly bound: number;
  /** (distance − bound) / distance. */
  readonly gap: number;
  readonly proven: boolean;
  /** Decimals that distances were cut to, or null if they were not. */
  readonly decimals: number | null;
}

/** Ruin-and-recreate rounds for a public instance: many for a few places, fewer as each grows dearer. */
const roundsFor = (jobs: number): number => Math.max(2000, Math.min(100_000, 200 * jobs));

/**
 * Reads and solves a public instance: a Solomon table or text, or a TSPLIB file.
 * @throws InstanceError for anything it cannot read.
 */
export function solveInstance(text: string, options: InstanceOptions): InstanceAnswer {
  return looksLikeTsplib(text) ? tour(text, options) : routes(text, options);
}

function tour(text: string, options: InstanceOptions): InstanceAnswer {
  const instance = parseTsplib(text);
  if (options.truncate !== undefined)
    throw new InstanceError('--truncate applies to coordinates of a Solomon file; TSPLIB distances are whole by definition.');
  const n = instance.ids.length;
  const solved = runOut(
    solveTour(instance, {
      seed: options.seed,
      iterations: roundsFor(n),
      lp: options.lp,
      remainingMs: options.remainingMs,
    }),
  );
  return {
    kind: 'tour',
    name: instance.name,
    distance: solved.cost,
    vehicles: 1,
    routes: [solved.tour.map((place) => instance.ids[place]!)],
    unserved: [],
    bound: solved.bound,
    gap: gapOf(solved.cost, solved.bound),
    proven: solved.proven,
    decimals: 0,
  };
}

function routes(text: string, options: InstanceOptions): InstanceAnswer {
  const instance = parseSolomon(text);
  const { model, scale, leftOut } = vrptwModel(instance, options);
  const { solution, bound, proven } = runOut(
    solveModel(model, {
      seed: options.seed,
      iterations: roundsFor(model.jobs.length),
      lp: options.lp,
      remainingMs: options.remainingMs,
      floor: Math.max(neighbourBound(model), tourFloor(model)),
      useAllTime: true,
    }),
  );
  const idOf = (job: number): string => instance.rows[job + 1]!.id;
  const used = solution.routes.filter((route) => route.jobs.length > 0);
  const unserved = model.jobs.flatMap((_, j) => (solution.done[j] === 0 ? [idOf(j)] : []));
  // Each customer left out counts in the solver's cost; the distance is what is driven.
  const distance = used.reduce((sum, route) => sum + route.drive, 0) / scale;
  const least = Math.max(0, (bound - unserved.length * leftOut) / scale);
  return {
    kind: 'routes',
    name: instance.name,
    distance,
    vehicles: used.length,
    routes: used.map((route) => route.jobs.map(idOf)),
    unserved,
    bound: Math.min(distance, least),
    gap: gapOf(distance, least),
    proven,
    decimals: options.truncate ?? null,
  };
}

const gapOf = (cost: number, bound: number): number => (cost > 0 ? Math.max(0, (cost - bound) / cost) : 0);
