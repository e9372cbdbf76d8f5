import type { IDBPTransaction } from 'idb';
import type { RoundReply, VisitOnFile } from '../core/tablet';
import type { Database, Schema } from './database';

/** A backup is begun a little before its time is told, and clocks are put right by halves of a round trip. */
const SLACK_MS = 120_000;

type Tx = IDBPTransaction<Schema, ('visits' | 'operations' | 'photos' | 'meta')[], 'readwrite'>;

/**
 * What becomes of pictures that have arrived. One that the office does not hold any more, after a restored backup for
 * instance, goes again; one in a backup from after it arrived is safe and makes room. Where no backup is told of, it
 * stays as long as its visit is in the round.
 */
export async function settlePictures(tx: Tx, reply: RoundReply, heldVisits: ReadonlySet<string>): Promise<void> {
  const [store, operations] = [tx.objectStore('photos'), tx.objectStore('operations')];
  const fileOfPhoto = photosOf(await tx.objectStore('visits').getAll());
  const backedUpAt = reply.backedUpAt ? Date.parse(reply.backedUpAt) : null;
  for (let at = await store.index('sent').openKeyCursor(); at; at = await at.continue()) {
    const [sentAt, id] = [at.key, at.primaryKey];
    if (sentAt > Date.parse(reply.serverTime)) continue;
    if (fileOfPhoto.get(id) === null) {
      const photo = await store.get(id);
      if (!photo) continue;
      const { sentAt: _, ...again } = photo;
      await store.put({ ...again, waiting: 1 });
      continue;
    }
    const visitId = (await operations.get(id))?.visitId;
    const gone = visitId === undefined || !heldVisits.has(visitId);
    if (gone || (backedUpAt !== null && backedUpAt > sentAt + SLACK_MS)) await store.delete(id);
  }
}

/** Of each picture's entry the file it is on file with; null while the office has none. */
const photosOf = (visits: readonly VisitOnFile[]): Map<string, string | null> =>
  new Map(visits.flatMap((v) => v.entries.photos.map((p) => [p.id, p.fileId] as const)));

/** Pictures that the office has had leave a full tablet first. @returns whether there were any */
export async function makeRoom(db: Database): Promise<boolean> {
  const ids = await db.getAllKeysFromIndex('photos', 'sent');
  for (const id of ids) await db.delete('photos', id);
  return ids.length > 0;
}
