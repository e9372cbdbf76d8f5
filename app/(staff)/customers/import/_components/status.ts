import type { ImportStatus } from '@/lib/core/fleet-csv';
import { counted } from '@/lib/core/wording/counted';

const STATUS_TEXT: Record<ImportStatus, (rows: string) => string> = {
  checked: (rows) => `${rows} checked`,
  running: () => 'running',
  done: (rows) => `${rows} on file`,
  failed: () => 'failed, nothing written',
  undone: () => 'taken back',
};

/** Where an import stands, in a few words. */
export const statusWords = (status: ImportStatus, rows: number): string => STATUS_TEXT[status](counted(rows, 'row'));
