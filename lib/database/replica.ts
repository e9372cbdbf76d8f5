import 'server-only';
import type { Db } from './client';

const LOOK_AGAIN_MS = 5_000;
const PATIENCE_MS = 2_000;
/** Older than that and an owner would look for what she has just seen elsewhere. */
const MOST_BEHIND_MS = 30_000;

/** Milliseconds that a replica is behind; null where the database follows no other (a copy that stood still would not say so). */
export async function behindMs(db: Db): Promise<number | null> {
  const [row] = await db.$queryRaw<{ follows: boolean; ms: number }[]>`
    SELECT pg_is_in_recovery() AS follows,
      CASE WHEN NOT pg_is_in_recovery() OR pg_last_wal_receive_lsn() = pg_last_wal_replay_lsn() THEN 0
        ELSE coalesce(extract(epoch FROM now() - pg_last_xact_replay_timestamp()) * 1000, 0) END::float8 AS ms`;
  return row?.follows ? row.ms : null;
}

const late = (ms: number) => new Promise<null>((done) => setTimeout(done, ms, null).unref());

/**
 * Where long reads go: to the replica while it answers, follows and keeps up; else to the shop's own database. It is looked at
 * every few seconds. `said` hears why it is passed over.
 */
export function longReads(own: Db, replica: Db, clock: () => number, said: (why: string) => void): () => Promise<Db> {
  let looked = -Infinity;
  let good: Promise<boolean> = Promise.resolve(false);
  const look = async () => {
    const behind = await Promise.race([behindMs(replica), late(PATIENCE_MS)]).catch(() => null);
    if (behind === null) said('it does not answer, or follows no other');
    else if (behind > MOST_BEHIND_MS) said(`it is ${Math.round(behind / 1000)} s behind`);
    return behind !== null && behind <= MOST_BEHIND_MS;
  };
  return async () => {
    if (clock() - looked > LOOK_AGAIN_MS) {
      looked = clock();
      good = look();
    }
    return (await good) ? replica : own;
  };
}
