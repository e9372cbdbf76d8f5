/** Where an import stands, in a few words. */
export function statusWords(status: string, rows: number): string {
  const units = `${rows.toLocaleString('en-US')} ${rows === 1 ? 'row' : 'rows'}`;
  if (status === 'done') return `${units} on file`;
  if (status === 'running') return 'running';
  if (status === 'failed') return 'failed, nothing written';
  return `${units} checked`;
}
