import type { Entry, EntryResult } from '../core/tablet';
import { batchLength } from './batch';
import type { Database } from './database';
import { identity } from './identity';
import { waitingEntries } from './journal';
import { OfficeError, type AppName, type Office } from './office';
import { sendPieces } from './send-photos';

/** Unsent work as a file: for a tablet that must be signed out, or whose line never comes back. */
export type Handover = {
  format: 'rimebook-handover';
  version: 2;
  device: AppName & { id: string; holder: string };
  madeAt: string;
  entries: Entry[];
  /** `bytes` is base64. */
  photos: { id: string; sha256: string; mime: string; bytes: string }[];
};

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
    version: 2,
    device: { ...(await identity(db)), ...name },
    madeAt: new Date(now).toISOString(),
    entries: (await waitingEntries(db)).map((k) => k.entry),
    photos: photos.map(({ id, sha256, mime, bytes }) => ({ id, sha256, mime, bytes: toBase64(bytes) })),
  };
}

/** Files of version 1 said `operations`. */
type Before = Omit<Handover, 'version' | 'entries'> & { version: 1; operations: Entry[] };

/** The file's content, or null when it is none of ours. The office checks every entry itself. */
export function readHandover(text: string): Handover | null {
  try {
    const file = JSON.parse(text) as Partial<Handover> | Partial<Before>;
    if (file.format !== 'rimebook-handover' || !file.device || !file.madeAt || !Array.isArray(file.photos)) return null;
    const { format, device, madeAt, photos } = file;
    const entries = file.version === 1 ? file.operations : file.version === 2 ? file.entries : null;
    return Array.isArray(entries) ? { format, version: 2, device, madeAt, entries, photos } : null;
  } catch {
    return null;
  }
}

export type TakenIn = { results: EntryResult[]; photos: number; stopped: string | null };

/**
 * Sends a handed-over file for whoever wrote it. Taking the same file in twice changes nothing more.
 * @throws OfficeError
 */
export async function takeIn(office: Office, file: Handover, now: () => number): Promise<TakenIn> {
  const results: EntryResult[] = [];
  let stopped: string | null = null;
  let left = file.entries;
  while (left.length > 0 && !stopped) {
    const batch = left.slice(0, batchLength(left));
    const reply = await office.send(
      file.device,
      new Date(now()).toISOString(),
      batch.map((entry) => ({ entry })),
    );
    results.push(...reply.results);
    stopped = reply.stopped;
    left = left.slice(batch.length);
  }
  let photos = 0;
  for (const photo of file.photos) if (await taken(office, photo)) photos++;
  return { results, photos, stopped };
}

/** One picture the office refuses, as the tablet's own try may have shown before, keeps none of the others back. */
async function taken(office: Office, { sha256, bytes }: Handover['photos'][number]): Promise<boolean> {
  try {
    return await sendPieces(office, sha256, fromBase64(bytes).buffer);
  } catch (error) {
    if (error instanceof OfficeError && error.trouble === 'refused') return false;
    throw error;
  }
}
