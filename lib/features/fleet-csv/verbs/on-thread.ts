import 'server-only';
import { Worker } from 'node:worker_threads';
import { AppError, type ErrorCode } from '../../../core/errors';
import { fieldOf } from '../../../core/typed/closed-set';
import type { SheetChoice } from '../../../schemas/equipment/fleet-csv';

export type ImportWork = { actor: { userId: string }; now: Date } & (
  | { verb: 'check'; fileName: string; csv?: string; bytes?: Uint8Array; lines?: string; kitchenId?: string }
  | { verb: 'choose'; input: SheetChoice }
  | { verb: 'run'; runId: string }
);
export type Said = { runId?: string; refused?: { code: ErrorCode; message: string; field?: string }; failed?: string };

const MOST_MEMORY_MB = 1024;
/** Of what somebody waits for. */
const MOST_MS = 60_000;
const tooMuch = () => new AppError('too_large', 'This sheet takes too long to read, or too much memory. Split it.', 'file');

/**
 * Checks, changes or runs an import on a thread of its own, with its own connection, within bounds of time and memory: whatever is
 * in the sheet, nobody else waits for it. @throws AppError as the work itself, or too_large
 */
export function onThread(url: string, work: ImportWork): Promise<string> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./import-thread.ts', import.meta.url), {
      workerData: { url, ...work },
      resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
    });
    const end = work.verb === 'run' ? undefined : setTimeout(() => void thread.terminate(), MOST_MS);
    thread.on('message', ({ runId, refused, failed }: Said) => {
      if (runId) resolve(runId);
      else reject(refused ? new AppError(refused.code, refused.message, refused.field) : new Error(`import: ${failed}`));
    });
    thread.on('error', (error) => reject(fieldOf(error, 'code') === 'ERR_WORKER_OUT_OF_MEMORY' ? tooMuch() : error));
    thread.on('exit', () => {
      clearTimeout(end);
      reject(tooMuch());
    });
  });
}
