import 'server-only';
import { fieldOf } from '../core/typed/closed-set';
import type { Db, Tx } from './client';

/** How long it queues for a connection when many come at once; after that `isBusy` says what happened. */
const MAX_WAIT_MS = 10_000;

/** Whether the database had no connection to spare in time: nothing was begun, so trying again is safe. */
export function isBusy(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const code = fieldOf(error, 'code');
  // P2024: no connection from the pool; P2028: no transaction could be started; 53300: too many connections.
  if (code === 'P2024' || code === '53300') return true;
  return /Unable to start a transaction|timeout exceeded when trying to connect|too many clients/i.test(error.message);
}

/** Runs `work` in one transaction: a new one on a client, the caller's own when already inside one. */
export function withinTransaction<T>(db: Db | Tx, work: (tx: Tx) => Promise<T>): Promise<T> {
  return '$transaction' in db && typeof db.$transaction === 'function'
    ? db.$transaction(work, { timeout: 30_000, maxWait: MAX_WAIT_MS })
    : work(db);
}
