import 'server-only';
import { randomUUID } from 'node:crypto';
import type { Tx } from '../../../database/client';

/** A working process says that it lives every few seconds; one silent for so long is taken to be dead. */
const SILENT_SECONDS = 60;
/** A run that takes its process down with it is not taken up for ever. */
const MAX_TRIES = 5;

export type RefitClaim = { id: string; claim: string; priorId: string | null; afterKitchenId: string | null; units: number };

/**
 * Takes up the run that a dead process left, where it left it; begins one where there is none. One at a time, whichever process asks.
 * @returns null while a living process is at it
 */
export async function claimRefit(db: Tx, now: Date): Promise<RefitClaim | null> {
  const claim = randomUUID();
  await db.$executeRaw`
    UPDATE "RefitRun" SET "finishedAt" = ${now}, error = 'Given up: it was cut short too often.'
    WHERE "finishedAt" IS NULL AND tries >= ${MAX_TRIES} AND coalesce("beatAt", '-infinity') < now() - make_interval(secs => ${SILENT_SECONDS})`;
  const [left] = await db.$queryRaw<RefitClaim[]>`
    UPDATE "RefitRun" SET claim = ${claim}::uuid, "beatAt" = now(), tries = tries + 1
    WHERE "finishedAt" IS NULL AND coalesce("beatAt", '-infinity') < now() - make_interval(secs => ${SILENT_SECONDS})
    RETURNING id, claim, "priorId", "afterKitchenId", units`;
  if (left) return left;
  const [begun] = await db.$queryRaw<RefitClaim[]>`
    INSERT INTO "RefitRun" (id, "startedAt", claim, "beatAt", tries) VALUES (${randomUUID()}::uuid, ${now}, ${claim}::uuid, now(), 1)
    ON CONFLICT DO NOTHING RETURNING id, claim, "priorId", "afterKitchenId", units`;
  return begun ?? null;
}

/** Whether a dead process left a run, which somebody should go on with. */
export async function refitLeftOver(db: Tx): Promise<boolean> {
  const [row] = await db.$queryRaw<{ left: boolean }[]>`
    SELECT EXISTS (SELECT 1 FROM "RefitRun" WHERE "finishedAt" IS NULL AND coalesce("beatAt", '-infinity') < now() - make_interval(secs => ${SILENT_SECONDS})) AS left`;
  return row?.left ?? false;
}

type Step = { priorId?: string; afterKitchenId?: string; units?: number; finishedAt?: Date };

/** Says that the process lives, and how far it has come. @returns whether the run is still its own */
export async function beatRefit(db: Tx, { id, claim }: Pick<RefitClaim, 'id' | 'claim'>, step: Step = {}): Promise<boolean> {
  const count = await db.$executeRaw`
    UPDATE "RefitRun" SET "beatAt" = now(), "priorId" = coalesce(${step.priorId ?? null}::uuid, "priorId"), "afterKitchenId" = coalesce(${step.afterKitchenId ?? null}::uuid, "afterKitchenId"),
      units = units + ${step.units ?? 0}::int, "finishedAt" = ${step.finishedAt ?? null}::timestamptz
    WHERE id = ${id}::uuid AND claim = ${claim}::uuid AND "finishedAt" IS NULL`;
  return count === 1;
}

/** Gives a run up for another process to go on with at once. */
export const leaveRefit = (db: Tx, { id, claim }: Pick<RefitClaim, 'id' | 'claim'>) => db.$executeRaw`
  UPDATE "RefitRun" SET "beatAt" = NULL WHERE id = ${id}::uuid AND claim = ${claim}::uuid AND "finishedAt" IS NULL`;
