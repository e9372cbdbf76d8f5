import { Worker } from 'node:worker_threads';
import { PlanCancelled, type Improvement, type Plan } from '../core/planning';
import type { Search } from '../features/planning/verbs/search';

type Said = { improvement?: Improvement; plan?: Plan };

/** Searches on a thread of its own, so that requests are answered meanwhile; cancelling ends the thread. */
export const searchOnThread: Search = (problem, { seed, timeLimitMs, onImprovement, signal }) =>
  new Promise<Plan>((resolve, reject) => {
    const thread = new Worker(new URL('./plan-thread.ts', import.meta.url), { workerData: { problem, seed, timeLimitMs } });
    const cancel = () => {
      reject(new PlanCancelled());
      void thread.terminate();
    };
    signal.addEventListener('abort', cancel, { once: true });
    if (signal.aborted) cancel();
    thread.on('message', ({ improvement, plan }: Said) => {
      if (improvement) onImprovement(improvement);
      if (plan) resolve(plan);
    });
    thread.on('error', reject);
    thread.on('exit', (code) => {
      signal.removeEventListener('abort', cancel);
      reject(new Error(`The search ended without a plan (exit ${code}).`));
    });
  });
