import 'server-only';
import type { Actor } from '../../core/access';
import { OPERATION_VERSION, type OperationResult, type Outcome, type Stop, type SyncReply } from '../../core/round';
import type { Db, Tx } from '../../data/client';
import type { OperationEnvelope, SyncRequest } from '../../schemas/operations';
import { applyOne, type FiledOperation } from './apply-one';
import { lockDevice, type LockedDevice } from './device';
import { VisitDesk } from './visit-desk';

type Ctx = { db: Db; actor: Actor; now: Date; onUnexpected?: (error: unknown) => void };

/**
 * Takes in a batch of a device's operations, each exactly once and in the device's order, in one transaction. An entry
 * that cannot be filed undoes only itself; if the transaction is lost the device sends all of it again.
 * @throws AppError not_allowed
 */
export async function applyOperations(ctx: Ctx, request: SyncRequest): Promise<SyncReply> {
  return ctx.db.$transaction(
    async (tx) => {
      const device = await lockDevice(tx, ctx.actor, request.device, ctx.now);
      return takeIn(tx, ctx, device, [...request.operations].sort((a, b) => a.seq - b.seq));
    },
    { timeout: 120_000, maxWait: 20_000 },
  );
}

async function takeIn(tx: Tx, ctx: Ctx, device: LockedDevice, batch: readonly OperationEnvelope[]): Promise<SyncReply> {
  const known = new Map<string, OperationResult>();
  for (const o of await tx.operation.findMany({ where: { id: { in: batch.map((e) => e.id) } } }))
    known.set(o.id, { id: o.id, outcome: o.outcome as Outcome, note: (o.detail as { note?: string }).note ?? '' });
  const desk = new VisitDesk(tx, device.userId, device.id);
  const results: OperationResult[] = [];
  const filed: FiledOperation[] = [];
  let { lastSeq } = device;
  let stopped: Stop | null = null;
  for (const envelope of batch) {
    const before = known.get(envelope.id);
    if (before) {
      results.push(before);
      continue;
    }
    stopped = outOfOrder(envelope, lastSeq);
    if (stopped) break;
    try {
      const { result, row } = await applyOne(tx, { userId: device.userId, name: device.userName }, device.id, desk, envelope, ctx.now);
      known.set(result.id, result);
      results.push(result);
      filed.push(row);
      lastSeq = envelope.seq;
    } catch (error) {
      ctx.onUnexpected?.(error);
      stopped = 'unexpected';
      break;
    }
  }
  if (filed.length > 0) {
    await tx.operation.createMany({ data: filed });
    await tx.device.update({ where: { id: device.id }, data: { lastSeq } });
  }
  return { results, lastSeq, stopped };
}

function outOfOrder(envelope: OperationEnvelope, lastSeq: number): Stop | null {
  if (envelope.seq <= lastSeq) return 'renumber';
  if (envelope.seq > lastSeq + 1) return 'gap';
  return envelope.version > OPERATION_VERSION ? 'office_older' : null;
}
