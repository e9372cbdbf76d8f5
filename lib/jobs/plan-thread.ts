import { parentPort, workerData } from 'node:worker_threads';
import { planWeek, type WeekProblem } from '../core/planning';
import { runOut } from '../core/planning/steps';
import { highsLp } from '../features/planning/verbs/highs-lp';
import { giveWay } from '../features/give-way';

// The search for a week's plan, on a thread of its own: it keeps one core busy for seconds.
giveWay();
const { problem, seed, timeLimitMs } = workerData as { problem: WeekProblem; seed: number; timeLimitMs: number };
const plan = runOut(
  planWeek(problem, {
    seed,
    timeLimitMs,
    now: () => performance.now(),
    lp: await highsLp(),
    onImprovement: (improvement) => parentPort?.postMessage({ improvement }),
  }),
);
parentPort?.postMessage({ plan });
