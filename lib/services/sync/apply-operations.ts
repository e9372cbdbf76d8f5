import 'server-only';
import type { Actor } from '../../core/access';
import { isAppError } from '../../core/errors';
import { OPERATION_VERSION, type OperationResult, type Outcome, type Stop, type SyncReply } from '../../core/round';
import type { Db, Tx } from '../../data/client';
import type { OperationEnvelope, SyncRequest } from '../../schemas/operations';
import { applyOne } from './apply-one';
import { lockDevice, type LockedDevice } from './device';

/**
 * Takes in a batch of a device's operations, each exactly once and in the device's order. Each has its own transaction,
 * so that what is in stays in whatever happens to the rest.
 * @throws AppError not_allowed
 */
export async function applyOperations(ctx: { db: Db; actor: Actor; now: Date; onUnexpected?: (error: unknown) => void }, request: SyncRequest): Promise<SyncReply> {
  const results: OperationResult[] = [];
  let lastSeq = 0;
  const batch = [...request.operations].sort((a, b) => a.seq - b.seq);
  if (batch.length === 0) lastSeq = await ctx.db.$transaction(async (tx) => (await lockDevice(tx, ctx.actor, request.device, ctx.now)).lastSeq);
  for (const envelope of batch) {
    try {
      const step = await ctx.db.$transaction(
        async (tx) => {
          const device = await lockDevice(tx, ctx.actor, request.device, ctx.now);
          return takeIn(tx, ctx, device, envelope);
        },
        { timeout: 60_000, maxWait: 20_000 },
      );
      lastSeq = step.lastSeq;
      if ('stopped' in step) return { results, lastSeq, stopped: step.stopped };
      results.push(step.result);
    } catch (error) {
      if (results.length === 0 && isAppError(error)) throw error;
      ctx.onUnexpected?.(error);
      return { results, lastSeq, stopped: 'unexpected' };
    }
  }
  return { results, lastSeq, stopped: null };
}


type Step = { lastSeq: number; result: OperationResult } | { lastSeq: number; stopped: Stop };

async function takeIn(tx: Tx, ctx: { now: Date }, device: LockedDevice, envelope: OperationEnvelope): Promise<Step> {
  const { lastSeq } = device;
  const known = await tx.operation.findUnique({ where: { id: envelope.id } });
  if (known) return { lastSeq, result: { id: known.id, outcome: known.outcome as Outcome, note: (known.detail as { note?: string }).note ?? '' } };
  if (envelope.seq <= lastSeq) return { lastSeq, stopped: 'renumber' };
  if (envelope.seq > lastSeq + 1) return { lastSeq, stopped: 'gap' };
  if (envelope.version > OPERATION_VERSION) return { lastSeq, stopped: 'office_older' };
  const result = await applyOne(tx, { userId: device.userId, name: device.userName }, device.id, envelope, ctx.now);
  return { lastSeq: envelope.seq, result };
}
