import { parentPort, workerData } from 'node:worker_threads';
import { readXlsx } from './read-xlsx';

// A workbook is read on a thread of its own: one that would take all memory or time ends with it, and nothing else does.
try {
  parentPort?.postMessage({ sheets: await readXlsx((workerData as { bytes: Uint8Array }).bytes) });
} catch {
  parentPort?.postMessage({ failed: true });
}
