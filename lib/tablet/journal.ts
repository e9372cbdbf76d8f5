import { ENTRY_VERSION, type Entry, type EntryKind, type Payloads } from '../core/tablet';
import { readMeta, STRICT, writeMeta, type Database, type KeptEntry, type KeptPhoto } from './database';
import { StorageError, troubleOf } from './storage-trouble';

export type Clock = () => number;

/**
 * Writes an entry down and returns once it is on the disk. Its number is taken in the same transaction, so that
 * numbers run without gaps even with two windows open. A photo's bytes go in with the entry that names them.
 * @throws StorageError
 */
export async function writeDown<K extends EntryKind>(
  db: Database,
  clock: Clock,
  said: { visitId: string; kind: K; payload: Payloads[K]; id?: string },
  photo?: Pick<KeptPhoto, 'sha256' | 'mime' | 'bytes'>,
): Promise<KeptEntry> {
  try {
    const tx = db.transaction(['entries', 'meta', 'photos'], 'readwrite', STRICT);
    const meta = tx.objectStore('meta');
    const seq = (await readMeta(meta, 'nextSeq')) ?? 1;
    const skew = (await readMeta(meta, 'skewMs')) ?? 0;
    const refreshedAt = await readMeta(meta, 'refreshedAt');
    // Never before the entry made before, nor before what the office told, even if someone sets the clock back.
    const madeAt = Math.max(clock() + skew, ((await readMeta(meta, 'lastMadeAt')) ?? 0) + 1, refreshedAt ? Date.parse(refreshedAt) : 0);
    const basedOn = refreshedAt ?? new Date(madeAt).toISOString();
    const id = said.id ?? crypto.randomUUID();
    const entry = {
      id,
      seq,
      kind: said.kind,
      version: ENTRY_VERSION,
      visitId: said.visitId,
      madeAt: new Date(madeAt).toISOString(),
      basedOn,
      payload: said.payload,
    } as Entry;
    const kept: KeptEntry = { id, visitId: said.visitId, seq, entry, waiting: 1, outcome: null, note: '' };
    // Not awaited one by one: all fail or none, and `done` tells which.
    void tx
      .objectStore('entries')
      .add(kept)
      .catch(() => {});
    if (photo)
      void tx
        .objectStore('photos')
        .add({ id, visitId: said.visitId, ...photo, waiting: 1, problem: '' })
        .catch(() => {});
    void writeMeta(meta, { nextSeq: seq + 1, lastMadeAt: madeAt }).catch(() => {});
    await tx.done;
    return kept;
  } catch (error) {
    throw new StorageError(troubleOf(error));
  }
}

/** What waits, in the index of that name. */
export const waitingRange = () => IDBKeyRange.bound([1, 0], [1, Infinity]);
export const waitingEntries = (db: Database, most = Infinity): Promise<KeptEntry[]> =>
  db.getAllFromIndex('entries', 'waiting', waitingRange(), Number.isFinite(most) ? most : undefined);
