import 'server-only';
import { connect, type Db } from '../../database/client';
import { env } from './env';

const held = globalThis as unknown as { rimebookDb?: Db; rimebookHealthDb?: Db };

/** The process's one database client. */
export const db = (): Db => (held.rimebookDb ??= connect(env().DATABASE_URL));

/** One connection for asking whether the server is well: nobody who works holds it. */
export const healthDb = (): Db => (held.rimebookHealthDb ??= connect(env().DATABASE_URL, 1));
