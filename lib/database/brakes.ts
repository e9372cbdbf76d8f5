import 'server-only';
import type { Tx } from './client';

export type Limit = { most: number; withinMs: number };

/**
 * Counts a try and says whether it may go on: at most `most` in any stretch of `withinMs`. Counting and asking are one
 * statement on one row, so of sixty at once exactly `most` pass, whichever process they reach. What is refused is not counted.
 */
export async function takeTry(db: Tx, key: string, { most, withinMs }: Limit, now: Date): Promise<boolean> {
  const since = new Date(now.getTime() - withinMs);
  const taken = await db.$executeRaw`
    INSERT INTO "Brake" AS b (key, tries, "lastAt") VALUES (${key}, ARRAY[${now}::timestamptz], ${now})
    ON CONFLICT (key) DO UPDATE
      SET tries = ARRAY(SELECT t FROM unnest(b.tries) AS t WHERE t > ${since}) || ${now}::timestamptz, "lastAt" = ${now}
      WHERE (SELECT count(*) FROM unnest(b.tries) AS t WHERE t > ${since}) < ${most}`;
  return taken > 0;
}

/** Takes back one try that was counted at `at`: it was no guess. */
export const giveBackTry = (db: Tx, key: string, at: Date) => db.$executeRaw`
  UPDATE "Brake" SET tries = tries[:array_position(tries, ${at}::timestamptz) - 1] || tries[array_position(tries, ${at}::timestamptz) + 1:]
  WHERE key = ${key} AND ${at}::timestamptz = ANY (tries)`;

/** Forgets every try of this key. */
export const forgetTries = (db: Tx, key: string) => db.$executeRaw`DELETE FROM "Brake" WHERE key = ${key}`;

const KEPT_MS = 24 * 3600_000;
/** Clears away what no limit asks about any more. */
export const sweepTries = (db: Tx, now: Date) => db.$executeRaw`DELETE FROM "Brake" WHERE "lastAt" < ${new Date(now.getTime() - KEPT_MS)}`;
