import 'server-only';
import { randomUUID } from 'node:crypto';
import type { Tx } from '../../../database/client';

/** A searching process says that it lives at least every second; one silent for so long is taken to be dead. */
const SILENT_SECONDS = 20;
/** A search that takes its process down with it is not taken up for ever. */
const MAX_TRIES = 3;

/** Takes a queued run, unless another has. @returns the claim, under which everything about the run is written; or null */
export async function claimRun(db: Tx, id: string): Promise<string | null> {
  const claim = randomUUID();
  const count = await db.$executeRaw`
    UPDATE "PlanRun" SET status = 'running', claim = ${claim}::uuid, "beatAt" = now(), tries = tries + 1
    WHERE id = ${id}::uuid AND status = 'queued'`;
  return count === 1 ? claim : null;
}

/** Says that the search lives. The database's clock is the one all processes share. @returns whether it is still wanted */
export async function beat(db: Tx, id: string, claim: string): Promise<boolean> {
  const count = await db.$executeRaw`
    UPDATE "PlanRun" SET "beatAt" = now() WHERE id = ${id}::uuid AND claim = ${claim}::uuid AND status = 'running'`;
  return count === 1;
}

/** Puts the searches of dead processes back in the queue. @returns every queued run, to be nudged */
export async function requeueAbandoned(db: Tx): Promise<string[]> {
  await db.$executeRaw`
    UPDATE "PlanRun" SET claim = NULL, result = NULL,
      status = (CASE WHEN tries >= ${MAX_TRIES} THEN 'failed' ELSE 'queued' END)::"PlanStatus",
      error = CASE WHEN tries >= ${MAX_TRIES} THEN 'The search was cut short three times. Book by hand, and tell whoever keeps the server.' ELSE '' END
    WHERE status = 'running' AND coalesce("beatAt", '-infinity') < now() - make_interval(secs => ${SILENT_SECONDS})`;
  const rows = await db.planRun.findMany({ where: { status: 'queued' }, select: { id: true } });
  return rows.map((r) => r.id);
}
