import 'server-only';
import type { Actor } from '../core/people/access';
import type { Db, Tx } from '../database/client';

/** What every verb is given. `actor` is null where the program itself acts, for instance on a data logger's file. */
export type ServiceContext = { db: Db | Tx; actor: Pick<Actor, 'userId'> | null; now: Date };
