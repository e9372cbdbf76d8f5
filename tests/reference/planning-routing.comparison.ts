import { readFileSync } from 'node:fs';
import path from 'node:path';
import { solveInstance, type InstanceAnswer } from '@/checks/routing/solve-instance';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import type { Comparison } from './comparison';

interface Published {
  readonly file: string;
  readonly optimum: number;
  readonly vehicles?: number;
  readonly truncate?: number;
}

/**
 * First 25 customers, distances cut after one decimal. R101 was worked out for this project
 * by enumeration and an integer program; the others are optima of Kohl, Desrosiers, Madsen,
 * Solomon & Soumis 1999 (Transportation Science 33(1):101–116) from memory.
 */
const SOLOMON: readonly Published[] = [
  { file: 'r101-25.csv', optimum: 617.1, vehicles: 8, truncate: 1 },
  { file: 'rc101-25.csv', optimum: 461.1, vehicles: 4, truncate: 1 },
  { file: 'rc108-25.csv', optimum: 294.5, vehicles: 3, truncate: 1 },
  { file: 'r112-25.csv', optimum: 393.0, vehicles: 4, truncate: 1 },
  { file: 'c104-25.csv', optimum: 186.9, vehicles: 3, truncate: 1 },
];
/** R101 again with uncut distances, worked out for this project. */
const UNCUT: Published = { file: 'r101-25.csv', optimum: 618.33, vehicles: 8 };

/** Optimal lengths as TSPLIB lists them. */
const TOURS: readonly Published[] = [
  { file: 'burma14.tsp', optimum: 3323 },
  { file: 'gr17.tsp', optimum: 2085 },
  { file: 'gr24.tsp', optimum: 1272 },
  { file: 'ulysses22.tsp', optimum: 7013 },
  { file: 'berlin52.tsp', optimum: 7542 },
];

/** Far more than is needed, so that a busy machine does not decide. */
const LIMIT_MS = 120_000;

export async function comparisons(): Promise<Comparison[]> {
  const lp = await highsLp();
  const solve = ({ file, truncate }: Published): InstanceAnswer => {
    const text = readFileSync(path.join(import.meta.dirname, 'data/routing', file), 'utf8');
    const until = performance.now() + LIMIT_MS;
    return solveInstance(text, { seed: 1, capacity: 200, truncate, lp, remainingMs: () => until - performance.now() });
  };
  const routed = SOLOMON.map((published) => ({ published, answer: solve(published) }));
  const uncut = solve(UNCUT);
  const toured = TOURS.map((published) => ({ published, answer: solve(published) }));
  const worst = (values: readonly number[]): { worst: number; samples: number } => ({
    worst: Math.max(...values),
    samples: values.filter(Number.isFinite).length,
  });
  const off = (list: typeof routed): number[] => list.map(({ published, answer }) => Math.abs(answer.distance - published.optimum));
  const bounded = (list: typeof routed): number[] =>
    // A bound above the optimum is no bound: count it as wholly wrong.
    list.map(({ published, answer }) =>
      answer.bound > published.optimum + 1e-6 ? 100 : (100 * (published.optimum - answer.bound)) / published.optimum,
    );
  const solomon = 'Solomon 1987, 25 customers; optima of Kohl et al. 1999 (from memory), R101 by enumeration and integer program';
  const tsplib = 'Reinelt 1991, TSPLIB and its list of optimal lengths';
  return [
    {
      id: 'planning.vrptw.distance',
      source: solomon,
      quantity: 'Distance against the optimum, cut after one decimal',
      unit: 'distance',
      tolerance: 1e-6,
      expectedSamples: SOLOMON.length,
      ...worst(off(routed)),
    },
    {
      id: 'planning.vrptw.vehicles',
      source: solomon,
      quantity: 'Vehicles against the optimum',
      unit: '1',
      tolerance: 0.5,
      expectedSamples: SOLOMON.length,
      ...worst(routed.map(({ published, answer }) => Math.abs(answer.vehicles - published.vehicles!))),
    },
    {
      id: 'planning.vrptw.bound',
      source: solomon,
      quantity: 'Optimum above the proven bound',
      unit: '%',
      tolerance: 2,
      expectedSamples: SOLOMON.length,
      ...worst(bounded(routed)),
    },
    {
      id: 'planning.vrptw.uncut',
      source: 'Solomon 1987, R101; optimum by enumeration and integer program',
      quantity: 'Distance against the optimum, distances not cut',
      unit: 'distance',
      tolerance: 0.001,
      expectedSamples: 1,
      ...worst([Math.abs(uncut.distance - UNCUT.optimum)]),
    },
    {
      id: 'planning.tour.length',
      source: tsplib,
      quantity: 'Tour length against the optimum',
      unit: 'distance',
      tolerance: 1e-6,
      expectedSamples: TOURS.length,
      ...worst(off(toured)),
    },
    {
      id: 'planning.tour.bound',
      source: tsplib,
      quantity: 'Optimum above the proven bound',
      unit: '%',
      tolerance: 2,
      expectedSamples: TOURS.length,
      ...worst(bounded(toured)),
    },
  ];
}
