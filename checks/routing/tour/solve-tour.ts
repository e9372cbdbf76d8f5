import type { LpSolver } from '../../../lib/core/planning/bound/lp';
import type { TourInstance } from '../tsplib';
import { tourModel } from '../tour-model';
import { anneal } from '../../../lib/core/planning/search/anneal';
import { stepWhile } from '../../../lib/core/planning/steps';
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
  // The proof deserves its share of the time.
  const searchUntil = options.remainingMs() * 0.6;
  const hunt = yield* stepWhile(search, () => options.remainingMs() > searchUntil);
  const found = hunt.done ? hunt.result : hunt.last;
  let tour = [0, ...found.routes[0]!.jobs.map((job) => job + 1)];
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
    for (let from = 0; from < n; from++)
      for (let to = 0; to < n; to++) if (from !== to) legs.push({ from, to, cost: matrix[from * n + to]! });
  }
  if (bound < cost && options.lp && legs.length <= MOST_LEGS && n > 2) {
    yield;
    const before = bound;
    const proof = yield* stepWhile(exactTour(n, legs, !symmetric, options.lp, options.remainingMs), () => options.remainingMs() > 0);
    const tighter = proof.done ? proof.result.bound : proof.last;
    if (proof.done && proof.result.tour && lengthOf(matrix, n, proof.result.tour) < cost) {
      tour = proof.result.tour;
      cost = lengthOf(matrix, n, tour);
    }
    // Legs left out cannot be part of anything cheaper than the known tour.
    bound = Math.max(before, tighter === Infinity ? cost : safe(tighter));
  }
  return { tour, cost, bound, proven: bound >= cost - 1e-9 };
}

function lengthOf(matrix: Float64Array, n: number, tour: readonly number[]): number {
  return tour.reduce((sum, place, i) => sum + matrix[place * n + tour[(i + 1) % n]!]!, 0);
}
