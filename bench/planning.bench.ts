import { readFileSync } from 'node:fs';
import path from 'node:path';
import { bookByHand, proposeWeek, type LpSolver, type Plan } from '@/lib/core/planning';
import { solveInstance } from '@/checks/routing/solve-instance';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { shopWeek } from '../tests/support/planning-weeks';
import type { BenchRow } from './types';

/** Processor milliseconds of this process: what the solver itself takes, however busy the machine is. */
const now = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const week = shopWeek(1, { kitchens: 40, technicians: 5, days: 5 });
const pause = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

let solver: Promise<LpSolver> | undefined;
const lp = (): Promise<LpSolver> => (solver ??= highsLp());

interface Timed {
  readonly plan: Plan;
  readonly ms: number;
  readonly firstMs: number;
}

async function propose(timeLimitMs: number, effort: number, bounded: boolean): Promise<Timed> {
  const began = now();
  let firstMs = Infinity;
  const plan = await proposeWeek(week, {
    seed: 1,
    timeLimitMs,
    now,
    effort,
    pause,
    lp: bounded ? await lp() : undefined,
    onImprovement: () => (firstMs = Math.min(firstMs, now() - began)),
  });
  return { plan, ms: now() - began, firstMs };
}

/** The plan a dispatcher waits for, and the best that a minute of searching finds. */
let quick: Promise<Timed> | undefined;
let long: Promise<Timed> | undefined;
const quickPlan = (): Promise<Timed> => (quick ??= propose(3000, 1, false));
const longPlan = (): Promise<Timed> => (long ??= propose(60_000, 60, false));

const instance = (file: string, truncate?: number) => async (): Promise<{ value: number }> => {
  const text = readFileSync(path.join(import.meta.dirname, '../tests/reference/data/routing', file), 'utf8');
  const solve = await lp();
  const began = now();
  const answer = solveInstance(text, {
    seed: 1,
    truncate,
    capacity: 200,
    lp: solve,
    remainingMs: () => began + 60_000 - now(),
  });
  if (!answer.proven) throw new Error(`${file} was not solved to the end`);
  return { value: now() - began };
};

export const rows: BenchRow[] = [
  {
    name: 'Week of 40 kitchens, 5 technicians, 5 days: first plan shown',
    unit: 'ms',
    target: '< 300 ms',
    run: async () => ({ value: (await quickPlan()).firstMs }),
  },
  {
    name: 'The same: plan ready',
    unit: 'ms',
    target: '< 3,000 ms',
    run: async () => ({ value: (await quickPlan()).ms }),
  },
  {
    name: 'The same: cost above the best of 60 s',
    unit: '%',
    target: '< 2 %',
    run: async () => {
      const [ready, best] = [(await quickPlan()).plan.cost.total, (await longPlan()).plan.cost.total];
      return { value: (100 * (ready - Math.min(ready, best))) / Math.min(ready, best) };
    },
  },
  {
    name: 'The same: gap to the proven bound after 60 s',
    unit: '%',
    target: 'reported',
    run: async () => ({ value: 100 * (await propose(60_000, 1, true)).plan.gap }),
  },
  {
    name: 'The same: driving',
    unit: 'min',
    target: 'below booking by hand',
    run: async () => ({
      value: (await quickPlan()).plan.cost.drivingMinutes,
      reference: { name: 'in due order to the nearest', value: bookByHand(week).cost.drivingMinutes },
    }),
  },
  {
    name: 'Solomon R101, 25 customers: proven optimum',
    unit: 'ms',
    target: '< 5,000 ms',
    run: instance('r101-25.csv', 1),
  },
  {
    name: 'Solomon RC101, 25 customers: proven optimum',
    unit: 'ms',
    target: '< 5,000 ms',
    run: instance('rc101-25.csv', 1),
  },
  {
    name: 'Solomon C104, 25 customers: proven optimum',
    unit: 'ms',
    target: '< 5,000 ms',
    run: instance('c104-25.csv', 1),
  },
  { name: 'TSPLIB burma14: proven optimum', unit: 'ms', target: '< 5,000 ms', run: instance('burma14.tsp') },
  { name: 'TSPLIB berlin52: proven optimum', unit: 'ms', target: '< 5,000 ms', run: instance('berlin52.tsp') },
];
