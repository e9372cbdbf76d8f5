import { ENTRY_VERSION, type Entry, type EntryKind, type Payloads } from '../core/tablet';
import { readMeta, STRICT, writeMeta, type Database, type KeptEntry, type KeptPhoto } from './database';
import { StorageError, troubleOf } from './storage-trouble';

export type Clock = () => number;

/** What a tap says, before it has a number. */
export type Said = { [K in EntryKind]: { kind: K; payload: Payloads[K] } }[EntryKind];
export type TakenPhoto = Pick<KeptPhoto, 'sha256' | 'mime' | 'bytes'>;

/**
 * Writes down what one tap says and returns once it is on the disk: all of it or nothing, however the tablet falls. Numbers
 * are taken in the same transaction, so that they run without gaps even with two windows open. A photo's bytes go in with
 * the entry that names them, the first.
 * @throws StorageError
 */
export async function writeDown(
  db: Database,
  clock: Clock,
  visitId: string,
  said: readonly Said[],
  photo?: TakenPhoto,
): Promise<KeptEntry[]> {
  try {
    const tx = db.transaction(['entries', 'meta', 'photos'], 'readwrite', STRICT);
    const meta = tx.objectStore('meta');
    const seq = (await readMeta(meta, 'nextSeq')) ?? 1;
    const skew = (await readMeta(meta, 'skewMs')) ?? 0;
    const refreshedAt = await readMeta(meta, 'refreshedAt');
    // Never before the entry made before, nor before what the office told, even if someone sets the clock back.
    const first = Math.max(clock() + skew, ((await readMeta(meta, 'lastMadeAt')) ?? 0) + 1, refreshedAt ? Date.parse(refreshedAt) : 0);
    const basedOn = refreshedAt ?? new Date(first).toISOString();
    const all = said.map(({ kind, payload }, i): KeptEntry => {
      const id = crypto.randomUUID();
      const madeAt = new Date(first + i).toISOString();
      const entry = { id, seq: seq + i, kind, version: ENTRY_VERSION, visitId, madeAt, basedOn, payload } as Entry;
      return { id, visitId, seq: seq + i, entry, waiting: 1, outcome: null, note: '' };
    });
    // Not awaited one by one: all fail or none, and `done` tells which.
    for (const kept of all)
      void tx
        .objectStore('entries')
        .add(kept)
        .catch(() => {});
    if (photo && all[0])
      void tx
        .objectStore('photos')
        .add({ id: all[0].id, visitId, ...photo, waiting: 1, problem: '' })
        .catch(() => {});
    void writeMeta(meta, { nextSeq: seq + all.length, lastMadeAt: first + all.length - 1 }).catch(() => {});
    await tx.done;
    return all;
  } catch (error) {
    throw new StorageError(troubleOf(error));
  }
}

/** What waits, in the index of that name. */
export const waitingRange = () => IDBKeyRange.bound([1, 0], [1, Infinity]);
export const waitingEntries = (db: Database, most = Infinity): Promise<KeptEntry[]> =>
  db.getAllFromIndex('entries', 'waiting', waitingRange(), Number.isFinite(most) ? most : undefined);
