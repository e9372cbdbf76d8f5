import 'server-only';
import { fieldOf } from '../core/typed/closed-set';
import type { Db, Tx } from './client';
import { sqlStateOf } from './sql-state';

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

/** Whether the disk of the database has no room left: what was to be written is not, and what is on file stays. */
export function isFull(error: unknown): boolean {
  return sqlStateOf(error) === '53100' || (error instanceof Error && /No space left on device/i.test(error.message));
}

// Class 08: the connection is gone; 57P01 to 57P03: the server stops, starts, or has just fallen.
const AWAY = /^(08...|57P0[123])$/;
const UNREACHED = new Set(['ECONNREFUSED', 'ECONNRESET', 'P1001', 'P1017']);
/** What the driver, and Prisma’s side of it, say without a code where the connection broke under a question. */
const BROKEN = /Connection terminated|connection error and is not queryable|^ConnectionClosed$/;

/** Whether the database cannot be reached just now: nothing was committed, or nobody can say; trying again is safe where once is once. */
export function isAway(error: unknown): boolean {
  const code = fieldOf(error, 'code');
  if (AWAY.test(sqlStateOf(error) ?? '') || (typeof code === 'string' && UNREACHED.has(code))) return true;
  return error instanceof Error && BROKEN.test(error.message);
}

/** Runs `work` in one transaction: a new one on a client, the caller's own when already inside one. */
export function withinTransaction<T>(db: Db | Tx, work: (tx: Tx) => Promise<T>): Promise<T> {
  return '$transaction' in db && typeof db.$transaction === 'function'
    ? db.$transaction(work, { timeout: 30_000, maxWait: MAX_WAIT_MS })
    : work(db);
}
