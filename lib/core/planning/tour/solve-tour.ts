import type { LpSolver } from '../bound/lp';
import type { TourInstance } from '../instances/tsplib';
import { tourModel } from '../instances/tour-model';
import { anneal } from '../search/anneal';
import { exactTour, type Leg } from './exact-tour';
import { oneTreeBound, usableEdges } from './one-tree';

export interface TourOptions {
  readonly seed: number;
  readonly iterations: number;
  /** Without a solver the bound is Held and Karp's, for symmetric files only. */
  readonly lp?: LpSolver;
  readonly remainingMs: () => number;
}

export interface SolvedTour {
  readonly tour: readonly number[];
  readonly cost: number;
  readonly bound: number;
  readonly proven: boolean;
}

/** Beyond this many legs the linear program is not worth starting. */
const MOST_LEGS = 8000;

/** Shortest tour of a TSPLIB instance: search, then bound, then proof where the gap is open. */
export function* solveTour(instance: TourInstance, options: TourOptions): Generator<void, SolvedTour, void> {
  const n = instance.ids.length;
  const { matrix, symmetric } = instance;
  const model = tourModel(instance);
  const search = anneal(model, { seed: options.seed, iterations: options.iterations });
  let step = search.next();
  // The proof deserves its share of the time.
  const searchUntil = options.remainingMs() * 0.4;
  while (!step.done && options.remainingMs() > searchUntil) {
    yield;
    step = search.next();
  }
  let tour = [0, ...step.value.routes[0]!.jobs.map((job) => job + 1)];
  let cost = lengthOf(matrix, n, tour);
  const safe = (bound: number): number => Math.min(cost, model.wholeCosts ? Math.ceil(bound - 1e-6) : bound - 1e-7 * Math.abs(bound));
  let bound = 0;
  let legs: Leg[] = [];
  if (symmetric) {
    const proof = oneTreeBound(matrix, n, cost);
    bound = safe(proof.bound);
    const limit = model.wholeCosts ? cost - 1 : cost;
    legs = usableEdges(matrix, n, proof, limit).map(([from, to]) => ({ from, to, cost: matrix[from * n + to]! }));
  } else {
    for (let from = 0; from < n; from++) for (let to = 0; to < n; to++) if (from !== to) legs.push({ from, to, cost: matrix[from * n + to]! });
  }
  if (bound < cost && options.lp && legs.length <= MOST_LEGS && n > 2) {
    yield;
    const exact = exactTour(n, legs, !symmetric, options.lp, options.remainingMs);
    let proof = exact.next();
    while (!proof.done && options.remainingMs() > 0) {
      bound = Math.max(bound, safe(proof.value));
      if (bound >= cost) break;
      yield;
      proof = exact.next();
    }
    if (!proof.done) exact.return({ bound, tour: null });
    else {
      if (proof.value.tour && lengthOf(matrix, n, proof.value.tour) < cost) {
        tour = proof.value.tour;
        cost = lengthOf(matrix, n, tour);
      }
      // Legs left out cannot be part of anything cheaper than the known tour.
      bound = Math.max(bound, Math.min(cost, proof.value.bound === Infinity ? cost : safe(proof.value.bound)));
    }
  }
  return { tour, cost, bound, proven: bound >= cost - 1e-9 };
}

function lengthOf(matrix: Float64Array, n: number, tour: readonly number[]): number {
  return tour.reduce((sum, place, i) => sum + matrix[place * n + tour[(i + 1) % n]!]!, 0);
}
