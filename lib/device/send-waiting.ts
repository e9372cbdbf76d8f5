import type { SyncReply } from '../core/round';
import { STRICT, writeMeta, type Database, type KeptOperation } from './database';
import { allOperations, waitingOperations } from './journal';
import { OfficeError, type AppName, type Office } from './office';
import { identity } from './identity';

const BATCH = 60;

type Sending = { onBatch?: (ids: readonly string[]) => void; clock: () => number; name: AppName };

/**
 * Sends what waits, in order, until nothing waits. An answer that never came is harmless: the same operations go again
 * and the office knows their ids.
 * @throws OfficeError
 */
export async function sendWaiting(db: Database, office: Office, sending: Sending): Promise<number> {
  let sent = 0;
  let repairs = 0;
  for (;;) {
    const batch = await waitingOperations(db, BATCH);
    if (batch.length === 0) return sent;
    sending.onBatch?.(batch.map((k) => k.id));
    const reply = await office.send({ ...(await identity(db)), ...sending.name }, new Date(sending.clock()).toISOString(), batch);
    sent += await fileResults(db, reply);
    if (reply.stopped === 'unexpected') throw new OfficeError('failed', 'The office could not take in the next entry. It is kept here and will be tried again.');
    if (reply.stopped === 'office_older') throw new OfficeError('failed', 'This tablet is newer than the office. What you write is kept here until the office is updated.');
    if (reply.stopped !== null && ++repairs > 3) throw new OfficeError('failed', 'The office and this tablet do not agree on what was sent. Hand over the export file.');
    if (reply.stopped === 'gap') await sendAgainFrom(db, reply.lastSeq + 1);
    if (reply.stopped === 'renumber') await renumber(db);
  }
}

async function fileResults(db: Database, reply: SyncReply): Promise<number> {
  const tx = db.transaction('operations', 'readwrite', STRICT);
  for (const r of reply.results) {
    const kept = await tx.store.get(r.id);
    if (!kept) continue;
    const { waiting: _, ...filed } = kept;
    await tx.store.put({ ...filed, outcome: r.outcome, note: r.note });
  }
  await tx.done;
  return reply.results.length;
}

/** The office lacks an entry it once had, after a restored backup for instance: it is sent again, or all get new numbers. */
async function sendAgainFrom(db: Database, seq: number): Promise<void> {
  const all = await allOperations(db);
  if (!all.some((k) => k.seq === seq)) return renumber(db);
  await rewrite(db, all.filter((k) => k.seq >= seq).map((k) => ({ ...k, waiting: 1 as const })));
}

/** A new identity for this tablet; what waits is counted anew from 1 under the same ids. */
async function renumber(db: Database): Promise<void> {
  const all = await allOperations(db);
  const waiting = all.filter((k) => k.waiting);
  const again = waiting.map((k, i): KeptOperation => ({ ...k, seq: i + 1, op: { ...k.op, seq: i + 1 } }));
  const filed = all.filter((k) => !k.waiting).map((k): KeptOperation => ({ ...k, seq: 0 }));
  await rewrite(db, [...again, ...filed], { deviceId: crypto.randomUUID(), nextSeq: again.length + 1, appliedSeq: 0, cursor: '' });
}

async function rewrite(db: Database, operations: readonly KeptOperation[], meta: Parameters<typeof writeMeta>[1] = {}): Promise<void> {
  const tx = db.transaction(['operations', 'meta'], 'readwrite', STRICT);
  for (const k of operations) await tx.objectStore('operations').put(k);
  await writeMeta(tx.objectStore('meta'), meta);
  await tx.done;
}
