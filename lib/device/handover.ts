import { CHUNK_BYTES, type Operation, type OperationResult } from '../core/round';
import type { Database } from './database';
import { identity } from './identity';
import { waitingOperations } from './journal';
import type { AppName, Office } from './office';

/** Unsent work as a file: for a tablet that must be signed out, or whose line never comes back. */
export type Handover = {
  format: 'rimebook-handover';
  version: 1;
  device: AppName & { id: string; holder: string };
  madeAt: string;
  operations: Operation[];
  /** `bytes` is base64. */
  photos: { id: string; sha256: string; mime: string; bytes: string }[];
};

const BATCH = 60;
/** Base64 in slices, so that a large picture does not overflow the call's arguments. */
const SLICE = 0x8000;

function toBase64(buffer: ArrayBuffer): string {
  const bytes = new Uint8Array(buffer);
  let text = '';
  for (let i = 0; i < bytes.length; i += SLICE) text += String.fromCharCode(...bytes.subarray(i, i + SLICE));
  return btoa(text);
}
const fromBase64 = (text: string): Uint8Array<ArrayBuffer> => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

export async function makeHandover(db: Database, name: AppName, now: number): Promise<Handover> {
  const photos = await db.getAllFromIndex('photos', 'waiting');
  return {
    format: 'rimebook-handover',
    version: 1,
    device: { ...(await identity(db)), ...name },
    madeAt: new Date(now).toISOString(),
    operations: (await waitingOperations(db)).map((k) => k.op),
    photos: photos.map(({ id, sha256, mime, bytes }) => ({ id, sha256, mime, bytes: toBase64(bytes) })),
  };
}

/** The file's content, or null when it is none of ours. The office checks every entry itself. */
export function readHandover(text: string): Handover | null {
  try {
    const file = JSON.parse(text) as Partial<Handover>;
    return file.format === 'rimebook-handover' && file.version === 1 && file.device && Array.isArray(file.operations) && Array.isArray(file.photos) ? (file as Handover) : null;
  } catch {
    return null;
  }
}

export type TakenIn = { results: OperationResult[]; photos: number; stopped: string | null };

/**
 * Sends a handed-over file for whoever wrote it. Taking the same file in twice changes nothing more.
 * @throws OfficeError
 */
export async function takeIn(office: Office, file: Handover, now: () => number): Promise<TakenIn> {
  const results: OperationResult[] = [];
  for (let i = 0; i < file.operations.length; i += BATCH) {
    const reply = await office.send(file.device, new Date(now()).toISOString(), file.operations.slice(i, i + BATCH).map((op) => ({ op })));
    results.push(...reply.results);
    if (reply.stopped) return { results, photos: 0, stopped: reply.stopped };
  }
  let photos = 0;
  for (const photo of file.photos) {
    const bytes = fromBase64(photo.bytes);
    const pieces = Math.max(1, Math.ceil(bytes.length / CHUNK_BYTES));
    let { have, done } = await office.uploadState(photo.sha256, pieces);
    for (let i = 0; i < pieces && !done; i++)
      if (!have.includes(i)) ({ have, done } = await office.upload(photo.sha256, i, pieces, bytes.slice(i * CHUNK_BYTES, (i + 1) * CHUNK_BYTES)));
    if (done) photos++;
  }
  return { results, photos, stopped: null };
}
