import { Worker } from 'node:worker_threads';

const MOST_MEMORY_MB = 1024;

/** Works out the owner's figures on a thread with a connection of its own, so that requests are answered meanwhile. */
export const figuresOnThread = (url: string, now: Date): Promise<void> =>
  new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./figures-thread.ts', import.meta.url), {
      workerData: { url, now },
      resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
    });
    thread.once('message', () => resolve());
    thread.once('error', reject);
    thread.once('exit', (code) => reject(new Error(`The thread of figures ended (exit ${code}).`)));
  });
