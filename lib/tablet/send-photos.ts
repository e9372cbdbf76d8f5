import { CHUNK_BYTES, type UploadState } from '../core/tablet';
import { STRICT, type Database, type KeptPhoto } from './database';
import { OfficeError, type Office } from './office';

/** While the office unpacks one picture, the next is on its way. */
const AT_ONCE = 3;

/**
 * Sends the pictures that wait, piece by piece; a piece that has arrived is not sent twice. A picture the office
 * refuses stays on the tablet with the reason, and holds up nothing else. Where `wanted` says that something else is
 * to go first, the rest is left for the next time.
 * @throws OfficeError when the office cannot be reached
 */
export async function sendPhotos(
  db: Database,
  office: Office,
  officeNow: () => number,
  wanted: () => boolean = () => false,
): Promise<void> {
  const ids = await db.getAllKeysFromIndex('photos', 'waiting', 1);
  const lane = async (): Promise<void> => {
    for (let id = ids.shift(); id !== undefined; id = wanted() ? undefined : ids.shift()) await sendOne(db, office, id, officeNow);
  };
  const lanes = await Promise.allSettled(Array.from({ length: AT_ONCE }, lane));
  for (const end of lanes) if (end.status === 'rejected') throw end.reason;
}

async function sendOne(db: Database, office: Office, id: string, officeNow: () => number): Promise<void> {
  const photo = await db.get('photos', id);
  if (!photo) return;
  try {
    if (await sendPieces(office, photo.sha256, photo.bytes)) await markPicture(db, id, { sentAt: officeNow(), problem: '' });
  } catch (error) {
    if (!(error instanceof OfficeError) || error.trouble !== 'refused') throw error;
    await markPicture(db, id, { waiting: 2, problem: error.text });
  }
}

/**
 * Sends what the office lacks of a picture. True once it is whole there.
 * @throws OfficeError
 */
export async function sendPieces(office: Office, sha256: string, bytes: ArrayBuffer): Promise<boolean> {
  const pieces = Math.max(1, Math.ceil(bytes.byteLength / CHUNK_BYTES));
  // Of one piece, asking what has arrived would cost as much as sending it.
  const state: UploadState = pieces === 1 ? { have: [], done: false } : await office.uploadState(sha256, pieces);
  let { done } = state;
  const missing = Array.from({ length: pieces }, (_, i) => i).filter((i) => !state.have.includes(i));
  // All there and yet not whole: the office fell before it put them together, and does so when the last comes again.
  for (const i of missing.length > 0 ? missing : [pieces - 1]) {
    if (done) break;
    ({ done } = await office.upload(
      sha256,
      i,
      pieces,
      new Uint8Array(bytes, i * CHUNK_BYTES, Math.min(CHUNK_BYTES, bytes.byteLength - i * CHUNK_BYTES)),
    ));
  }
  return done;
}

/** Changes how a kept picture stands; one that was taken back meanwhile stays away. */
export async function markPicture(db: Database, id: string, change: Pick<KeptPhoto, 'waiting' | 'sentAt' | 'problem'>): Promise<void> {
  const tx = db.transaction('photos', 'readwrite', STRICT);
  const photo = await tx.store.get(id);
  if (photo) {
    const { waiting: _, sentAt: __, ...rest } = photo;
    await tx.store.put({ ...rest, ...change });
  }
  await tx.done;
}

const MOST_THUMBS = 400;

/** Small pictures of earlier visits, for looking at without signal; those no longer shown go. */
export async function fetchThumbs(db: Database, office: Office, wanted: () => boolean = () => false): Promise<void> {
  const visits = await db.getAll('visits');
  const shown = [
    ...new Set(
      visits.flatMap((v) => [
        ...v.units.flatMap((u) => u.thumbs.map((t) => t.fileId)),
        ...v.entries.photos.flatMap((p) => (p.fileId ? [p.fileId] : [])),
      ]),
    ),
  ].slice(0, MOST_THUMBS);
  const have = new Set(await db.getAllKeys('thumbs'));
  for (const fileId of have) if (!shown.includes(fileId)) await db.delete('thumbs', fileId);
  for (const fileId of shown) {
    if (have.has(fileId)) continue;
    if (wanted()) return;
    try {
      await db.put('thumbs', { fileId, ...(await office.thumb(fileId)) });
    } catch (error) {
      // One picture that is gone is no reason to stop; a lost line is.
      if (error instanceof OfficeError && error.trouble === 'offline') throw error;
    }
  }
}
