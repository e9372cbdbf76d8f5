import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { RefitCrew } from '../features/intervals/verbs/refit-fleet';
import type { RefitStep, RefitStepDone } from '../features/intervals/verbs/refit-step';

type Said = { done?: RefitStepDone; failed?: string };
const MOST_THREADS = 4;
const MOST_MEMORY_MB = 512;

/** Threads for the weekly refit, so that requests are answered meanwhile: two where there are two cores, for it runs in the night. */
export function refitThreads(url: string): RefitCrew & { close: () => Promise<void> } {
  const atOnce = Math.min(MOST_THREADS, Math.max(1, availableParallelism()));
  const all = Array.from({ length: atOnce }, () => new Worker(new URL('./refit-thread.ts', import.meta.url), {
    workerData: { url },
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
  })); // prettier-ignore
  const free = [...all];
  const run = (step: RefitStep) =>
    new Promise<RefitStepDone>((resolve, reject) => {
      const thread = free.pop();
      if (!thread) return reject(new Error('every thread is at work'));
      const ended = (code: number) => reject(new Error(`A thread of the refit ended (exit ${code}).`));
      thread.once('message', ({ done, failed }: Said) => {
        thread.off('error', reject).off('exit', ended);
        free.push(thread);
        if (done) resolve(done);
        else reject(new Error(failed));
      });
      thread.once('error', reject);
      thread.once('exit', ended);
      thread.postMessage(step);
    });
  return { run, atOnce, close: async () => void (await Promise.all(all.map((t) => t.terminate()))) };
}
