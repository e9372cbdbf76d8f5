import 'server-only';
import type { Db, Tx } from './client';

/** Runs `work` in one transaction: a new one on a client, the caller's own when already inside one. */
export function withinTransaction<T>(db: Db | Tx, work: (tx: Tx) => Promise<T>): Promise<T> {
  return '$transaction' in db && typeof db.$transaction === 'function' ? db.$transaction(work, { timeout: 30_000 }) : work(db);
}
