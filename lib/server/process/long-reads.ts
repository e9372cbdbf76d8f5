import 'server-only';
import { connect, type Db } from '../../database/client';
import { longReads } from '../../database/replica';
import { db } from './db';
import { env } from './env';
import { log } from './log';

let held: (() => Promise<Db>) | undefined;

function open(): () => Promise<Db> {
  const url = env().DATABASE_REPLICA_URL;
  if (!url) return () => Promise.resolve(db());
  const passedOver = (why: string) => log.warn({ why }, 'the replica is passed over');
  return longReads(db(), connect(url, 5), () => performance.now(), passedOver);
}

/** The database that the owner's pages read: a replica where one is named and keeps up, else the shop's own. Never written to. */
export const dbForLongReads = (): Promise<Db> => (held ??= open())();
