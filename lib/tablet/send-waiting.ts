import type { SyncReply } from '../core/tablet';
import { BATCH, batchLength } from './batch';
import { readMeta, STRICT, writeMeta, type Database, type KeptEntry } from './database';
import { waitingEntries } from './journal';
import { OfficeError, type AppName, type Office } from './office';
import { identity } from './identity';

type Sending = { onBatch?: (ids: readonly string[]) => void; clock: () => number; name: AppName };

/**
 * Sends what waits, in order, until nothing waits. An answer that never came is harmless: the same entries go again
 * and the office knows their ids.
 * @throws OfficeError
 */
export async function sendWaiting(db: Database, office: Office, sending: Sending): Promise<number> {
  let sent = 0;
  let repairs = 0;
  for (;;) {
    const waiting = await waitingEntries(db, BATCH);
    const batch = waiting.slice(0, batchLength(waiting.map((k) => k.entry)));
    if (batch.length === 0) return sent;
    sending.onBatch?.(batch.map((k) => k.id));
    const me = await identity(db);
    const reply = await office.send({ ...me, ...sending.name }, new Date(sending.clock()).toISOString(), batch);
    sent += await fileResults(db, reply);
    if (reply.stopped === 'unexpected')
      throw new OfficeError('failed', 'The office could not take in the next entry. It is kept here and will be tried again.');
    if (reply.stopped === 'office_older')
      throw new OfficeError('failed', 'This tablet is newer than the office. What you write is kept here until the office is updated.');
    if (reply.stopped !== null && ++repairs > 3)
      throw new OfficeError('failed', 'The office and this tablet do not agree on what was sent. Hand over the export file.');
    if (reply.stopped === 'gap') await sendAgain(db, me.id, reply.lastSeq + 1);
    if (reply.stopped === 'renumber') await sendAgain(db, me.id, null);
  }
}

async function fileResults(db: Database, reply: SyncReply): Promise<number> {
  const tx = db.transaction('entries', 'readwrite', STRICT);
  for (const r of reply.results) {
    const kept = await tx.store.get(r.id);
    if (!kept) continue;
    const { waiting: _, ...filed } = kept;
    await tx.store.put({ ...filed, outcome: r.outcome, note: r.note });
  }
  await tx.done;
  return reply.results.length;
}

/**
 * Entries the office lacks though it once had them, after a restored backup for instance, wait again.
 * @returns whether there are any
 */
export async function sendLost(db: Database, deviceId: string, lastSeq: number): Promise<boolean> {
  const filed = await db.getAllFromIndex('entries', 'seq', IDBKeyRange.lowerBound(lastSeq, true));
  if (filed.every((k) => k.waiting)) return false;
  await sendAgain(db, deviceId, lastSeq + 1);
  return true;
}

/**
 * What waits, and everything from `from` on, waits again; where the office cannot be followed on from there, or without
 * `from`, under a new identity and counted anew from 1, with the same ids. Nothing is done where another window has
 * given the tablet a new identity meanwhile.
 */
async function sendAgain(db: Database, deviceId: string, from: number | null): Promise<void> {
  const tx = db.transaction(['entries', 'meta'], 'readwrite', STRICT);
  const [entries, meta] = [tx.objectStore('entries'), tx.objectStore('meta')];
  if ((await readMeta(meta, 'deviceId')) !== deviceId) return tx.done;
  const all = (await entries.getAll()).sort((a, b) => a.seq - b.seq);
  const goes = (k: KeptEntry) => k.waiting === 1 || (from !== null && k.seq >= from);
  const going = all.filter(goes);
  if (from !== null && going.some((k) => k.seq === from)) for (const k of going) await entries.put({ ...k, waiting: 1 });
  else {
    for (const k of all) if (!goes(k)) await entries.put({ ...k, seq: 0 });
    for (const [i, k] of going.entries()) await entries.put({ ...k, waiting: 1, seq: i + 1, entry: { ...k.entry, seq: i + 1 } });
    await writeMeta(meta, { deviceId: crypto.randomUUID(), nextSeq: going.length + 1, appliedSeq: 0, cursor: '' });
  }
  await tx.done;
}
