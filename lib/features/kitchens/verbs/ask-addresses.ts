import 'server-only';
import { takeTry } from '../../../database/brakes';
import type { Db } from '../../../database/client';
import { STORED_CANDIDATES } from '../../../database/stored/places';
import type { Answer, Ask } from '../../../core/position';

/** One request a second, whoever asks and in whichever process: what the public service of this kind asks of everybody. */
const TURN = { most: 1, withinMs: 1000 };
const LOOK_AGAIN_MS = 120;
/** Longer than a request lasts: whoever took a row before that is gone. */
const TAKEN_MS = 60_000;

export type Pace = { clock: () => Date; wait: (ms: number) => Promise<void> };

/** Waits for the turn. @returns false when it did not come within `patienceMs` */
export async function takeTurn(db: Db, { clock, wait }: Pace, patienceMs: number): Promise<boolean> {
  const until = clock().getTime() + patienceMs;
  while (!(await takeTry(db, 'geocoder', TURN, clock()))) {
    if (clock().getTime() >= until) return false;
    await wait(LOOK_AGAIN_MS);
  }
  return true;
}

/**
 * Asks for the addresses that wait, one a second, at most `most` of them. Each answer is on file before the next is asked, so
 * it goes on where it stopped. A service that is busy or away ends the run: everything still waits, with why beside it.
 * @returns whether there is more to do right now
 */
export async function askAddresses(db: Db, ask: Ask, pace: Pace, most: number): Promise<boolean> {
  for (let n = 0; n < most; n++) {
    if (!(await takeTurn(db, pace, TAKEN_MS))) return true;
    const row = await take(db, pace.clock());
    if (!row) return false;
    const answer = await ask(row.address);
    await keep(db, row, answer);
    if (answer.is === 'busy') return false;
  }
  return true;
}

type Row = { kitchenId: string; address: string };

async function take(db: Db, now: Date): Promise<Row | null> {
  const stale = new Date(now.getTime() - TAKEN_MS);
  const [row] = await db.$queryRaw<Row[]>`
    UPDATE "PlaceLookup" SET "askedAt" = ${now} WHERE "kitchenId" = (
      SELECT "kitchenId" FROM "PlaceLookup" WHERE status = 'waiting' AND ("askedAt" IS NULL OR "askedAt" < ${stale})
      ORDER BY "createdAt", "kitchenId" LIMIT 1 FOR UPDATE SKIP LOCKED)
    RETURNING "kitchenId", address`;
  return row ?? null;
}

/** Only over what still waits for this very address: somebody may have taken it off, or asked anew. */
async function keep(db: Db, { kitchenId, address }: Row, answer: Answer): Promise<void> {
  const data =
    answer.is === 'found'
      ? ({ status: 'found', candidates: STORED_CANDIDATES.write(answer.candidates), problem: '' } as const)
      : answer.is === 'nothing'
        ? ({ status: 'nothing', problem: 'The service knows no such place.' } as const)
        : answer.is === 'failed'
          ? ({ status: 'failed', problem: answer.said } as const)
          : ({ problem: answer.said, askedAt: null } as const);
  await db.placeLookup.updateMany({ where: { kitchenId, address, status: 'waiting' }, data });
}
