import 'server-only';
import { Worker } from 'node:worker_threads';
import { AppError } from '../core/errors';
import type { RawSheet } from '../core/sheet';

const MOST_MS = 30_000;
const MOST_MEMORY_MB = 512;
type Said = { sheets?: RawSheet[]; failed?: true };
const unreadable = () =>
  new AppError(
    'invalid',
    'This workbook cannot be read. In the spreadsheet choose “Save as” and “Excel workbook (.xlsx)” or “CSV UTF-8”.',
    'file',
  );

/** Reads a workbook away from the server's own thread, within bounds of time and memory. @throws AppError invalid */
export const readWorkbook = (bytes: Uint8Array): Promise<RawSheet[]> =>
  new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./xlsx-thread.ts', import.meta.url), {
      workerData: { bytes },
      resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
    });
    const end = setTimeout(() => void thread.terminate(), MOST_MS);
    thread.on('message', ({ sheets, failed }: Said) => (sheets && !failed ? resolve(sheets) : reject(unreadable())));
    thread.on('error', () => reject(unreadable()));
    thread.on('exit', () => {
      clearTimeout(end);
      reject(unreadable());
    });
  });
