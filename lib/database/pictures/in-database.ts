import 'server-only';
import type { Tx } from '../client';
import type { Ask } from './rows-store.mjs';

/** Statements of a store of pictures, on the client that the shop has already. */
export const askOf =
  (db: Tx): Ask =>
  (sql, values) =>
    db.$queryRawUnsafe(sql, ...values);
