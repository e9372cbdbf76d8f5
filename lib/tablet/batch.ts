import type { Entry } from '../core/tablet';

/** Entries in one request. */
export const BATCH = 60;
/** Characters; what a slow line carries in half a minute, far below what the office reads at once. */
const MOST_TEXT = 100_000;

/** How many of the first entries go into one request: at least one, where there is any. */
export function batchLength(entries: readonly Entry[]): number {
  let text = 0;
  const end = entries.slice(0, BATCH).findIndex((entry) => (text += JSON.stringify(entry).length) > MOST_TEXT);
  return end < 0 ? Math.min(BATCH, entries.length) : Math.max(1, end);
}
