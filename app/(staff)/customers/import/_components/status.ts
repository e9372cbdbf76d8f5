import type { ImportStatus } from '@/lib/core/fleet-csv';
import { counted } from '@/lib/core/wording/counted';

const WORDS: Record<ImportStatus, (rows: string) => string> = {
  checked: (rows) => `${rows} checked`,
  running: () => 'running',
  done: (rows) => `${rows} on file`,
  failed: () => 'failed, nothing written',
  undone: () => 'taken back',
};

/** Where an import stands, in a few words. */
export const statusWords = (status: ImportStatus, rows: number): string => WORDS[status](counted(rows, 'row'));
