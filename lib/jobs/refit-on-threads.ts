import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { RefitCrew } from '../features/intervals/verbs/refit-fleet';
import type { RefitStep, RefitStepDone } from '../features/intervals/verbs/refit-step';

type Said = { id: number; done?: RefitStepDone; failed?: string };
const MOST_THREADS = 4;
const MOST_MEMORY_MB = 512;
/** What is made and dropped within a step. Left to itself a thread gets so little that collecting took a quarter of its time. */
const YOUNG_MEMORY_MB = 64;
/** The next step is read from the database while this one is reckoned. */
const STEPS_A_THREAD = 2;

/** Threads for the weekly refit, so that requests are answered meanwhile: two where there are two cores, for it runs in the night. */
export function refitThreads(url: string): RefitCrew & { close: () => Promise<void> } {
  const threads = Math.min(MOST_THREADS, Math.max(1, availableParallelism()));
  const all = Array.from({ length: threads }, () => new Worker(new URL('./refit-thread.ts', import.meta.url), {
    workerData: { url, atOnce: STEPS_A_THREAD },
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB, maxYoungGenerationSizeMb: YOUNG_MEMORY_MB },
  })); // prettier-ignore
  const seats = Array.from({ length: STEPS_A_THREAD }, () => all).flat();
  const atOnce = seats.length;
  let asked = 0;
  const run = (step: RefitStep) =>
    new Promise<RefitStepDone>((resolve, reject) => {
      const thread = seats.shift();
      if (!thread) return reject(new Error('every thread is at work'));
      const id = asked++;
      const ended = (code: number) => reject(new Error(`A thread of the refit ended (exit ${code}).`));
      const heard = (said: Said) => {
        if (said.id !== id) return;
        thread.off('message', heard).off('error', reject).off('exit', ended);
        seats.push(thread);
        if (said.done) resolve(said.done);
        else reject(new Error(said.failed));
      };
      thread.on('message', heard);
      thread.once('error', reject);
      thread.once('exit', ended);
      thread.postMessage({ id, step });
    });
  return { run, atOnce, close: async () => void (await Promise.all(all.map((t) => t.terminate()))) };
}
