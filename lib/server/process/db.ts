import 'server-only';
import { connect, type Db } from '../../database/client';
import { env } from './env';

const held = globalThis as unknown as { rimebookDb?: Db };

/** The process's one database client. */
export const db = (): Db => (held.rimebookDb ??= connect(env().DATABASE_URL));
