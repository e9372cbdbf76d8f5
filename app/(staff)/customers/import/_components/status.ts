import { counted } from '@/lib/core/wording/counted';
/** Where an import stands, in a few words. */
export function statusWords(status: string, rows: number): string {
  const units = counted(rows, 'row');
  if (status === 'done') return `${units} on file`;
  if (status === 'undone') return 'taken back';
  if (status === 'running') return 'running';
  if (status === 'failed') return 'failed, nothing written';
  return `${units} checked`;
}
