import type { LpRow, LpSolver } from '../../../lib/core/planning/bound/lp';
import { lightestCut } from './min-cut';

/** One way to go from place to place; without direction if the tour is symmetric. */
export interface Leg {
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

export interface TourProof {
  /** No tour over these legs costs less. Infinity if there is none. */
  readonly bound: number;
  /** The best tour, where it was found; `bound` is then its cost. */
  readonly tour: number[] | null;
}

/**
 * Shortest tour over the given legs: degree rows, subtour rows found by lightest cuts
 * (Dantzig, Fulkerson & Johnson 1954), then whole numbers, adding rows until no subtour is
 * left. Every round of it proves a bound; yields that bound so that the caller may stop.
 */
export function* exactTour(
  n: number,
  legs: readonly Leg[],
  directed: boolean,
  solver: LpSolver,
  remainingMs: () => number,
): Generator<number, TourProof, void> {
  const lp = solver.open();
  let bound = -Infinity;
  try {
    lp.addRows(Array.from({ length: directed ? 2 * n : n }, () => (directed ? { lower: 1, upper: 1 } : { lower: 2, upper: 2 })));
    lp.addColumns(
      legs.map((leg) => ({
        cost: leg.cost,
        upper: 1,
        rows: directed ? [leg.from, n + leg.to] : [leg.from, leg.to],
        values: [1, 1],
      })),
    );
    const within = (side: readonly number[]): LpRow => {
      const inside = new Set(side);
      const columns = legs.flatMap((leg, c) => (inside.has(leg.from) && inside.has(leg.to) ? [c] : []));
      return { lower: -Infinity, upper: side.length - 1, columns, values: columns.map(() => 1) };
    };
    for (let whole = false; ;) {
      yield bound;
      const solution = whole ? lp.solveWhole(remainingMs()) : lp.solve();
      if (solution.status === 'infeasible') return { bound: Infinity, tour: null };
      if (solution.status !== 'optimal') return { bound, tour: null };
      bound = Math.max(bound, solution.objective);
      const sides = subtours(n, legs, solution.primal);
      if (sides.length > 0) lp.addRows(sides.map(within));
      else if (whole) return { bound, tour: inOrder(n, legs, solution.primal, directed) };
      else whole = true;
    }
  } finally {
    lp.close();
  }
}

/** Sets of places the solution leaves too rarely: its separate parts, or else the side of its lightest cut. */
function subtours(n: number, legs: readonly Leg[], primal: Float64Array): number[][] {
  const weight = new Float64Array(n * n);
  legs.forEach((leg, c) => {
    if (primal[c]! < 1e-7) return;
    weight[leg.from * n + leg.to]! += primal[c]!;
    weight[leg.to * n + leg.from]! += primal[c]!;
  });
  const seen = new Uint8Array(n);
  const parts: number[][] = [];
  for (let start = 0; start < n; start++) {
    if (seen[start] === 1) continue;
    const part = [start];
    seen[start] = 1;
    for (let i = 0; i < part.length; i++)
      for (let j = 0; j < n; j++) {
        if (seen[j] === 1 || weight[part[i]! * n + j]! <= 0) continue;
        part.push(j);
        seen[j] = 1;
      }
    parts.push(part);
  }
  if (parts.length > 1) return parts;
  const cut = lightestCut(weight, n);
  return cut.value < 2 - 1e-6 ? [cut.side] : [];
}

function inOrder(n: number, legs: readonly Leg[], primal: Float64Array, directed: boolean): number[] {
  const ways: number[][] = Array.from({ length: n }, () => []);
  legs.forEach((leg, c) => {
    if (primal[c]! < 0.5) return;
    ways[leg.from]!.push(leg.to);
    if (!directed) ways[leg.to]!.push(leg.from);
  });
  const tour = [0];
  let from = -1;
  for (let at = 0; tour.length < n;) {
    const next = ways[at]!.find((to) => to !== from || (!directed && ways[at]!.filter((way) => way === to).length > 1))!;
    [from, at] = [at, next];
    tour.push(at);
  }
  return tour;
}
