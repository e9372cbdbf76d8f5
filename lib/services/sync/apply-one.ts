import 'server-only';
import { isAppError } from '../../core/errors';
import type { OperationResult, Operation, Outcome } from '../../core/round';
import type { Tx } from '../../data/client';
import type { OperationEnvelope } from '../../schemas/operations';
import type { ApplyContext, Handler } from './context';
import { HANDLERS } from './handlers';
import { isRefusal } from './is-refusal';
import { readOperation } from './read-operation';
import { visitFor } from './visit-for';
import { attempt } from '../../data/savepoint';
import { officeTime } from './office-time';

export type Maker = { userId: string; name: string };

/**
 * Applies one operation and writes it down, both in the caller's transaction. What cannot be applied is written down
 * as rejected, with its payload word for word: nothing a person typed is dropped.
 * @throws anything unexpected, so that the transaction is undone and the device sends it again
 */
export async function applyOne(db: Tx, maker: Maker, deviceId: string, envelope: OperationEnvelope, now: Date): Promise<OperationResult> {
  const at = officeTime(envelope, now);
  const notes: string[] = [];
  const refused = await attempt(db, async () => {
    const op = readOperation(envelope);
    const { visit, notes: first } = await visitFor(db, op.visitId, maker.userId, deviceId);
    notes.push(...first);
    const late = visit.status === 'done' && op.kind !== 'visit.close';
    if (late) notes.push('It came in after the visit was closed.');
    const ctx: ApplyContext = { db, actor: maker, now, deviceId, visit, at: at.at, note: (words) => notes.push(words) };
    await (HANDLERS[op.kind] as Handler<Operation['kind']>)(ctx, op as never);
  });
  if (refused !== null && !isRefusal(refused)) throw refused;
  const outcome: Outcome = refused !== null ? 'rejected' : notes.length > 0 ? 'conflict' : 'applied';
  const note = refused === null ? notes.join(' ') : isAppError(refused) ? refused.message : 'The office could not file this entry. It is kept as you wrote it.';
  const visit = await db.visit.findUnique({ where: { id: envelope.visitId }, select: { id: true } });
  await db.operation.create({
    data: {
      id: envelope.id, deviceId, userId: maker.userId, deviceSeq: envelope.seq, kind: envelope.kind, version: envelope.version, visitId: visit?.id ?? null,
      payload: (envelope.payload ?? null) as object, madeAt: new Date(envelope.madeAt), receivedAt: now, outcome,
      detail: { note, ...(at.correctedBy ? { clockCorrectedMs: at.correctedBy } : {}), ...(visit ? {} : { visitId: envelope.visitId }) },
    },
  });
  await db.device.update({ where: { id: deviceId }, data: { lastSeq: envelope.seq } });
  return { id: envelope.id, outcome, note };
}
