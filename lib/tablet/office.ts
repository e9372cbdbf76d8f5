import type { KeptEntry } from './database';
import type { ArrivalsTold, RoundReply, SyncReply, UploadState } from '../core/tablet';

export type OfficeTrouble = 'offline' | 'signed_out' | 'not_allowed' | 'refused' | 'failed';
export class OfficeError extends Error {
  constructor(
    readonly trouble: OfficeTrouble,
    readonly text: string,
  ) {
    super(text);
    this.name = 'OfficeError';
  }
}

/** What a person calls the tablet, and which version of Rimebook runs on it. */
export type AppName = { name: string; appVersion: string };
export type DeviceName = AppName & { id: string; holder?: string };

/** The office as a tablet reaches it. */
export interface Office {
  send(device: DeviceName, sentAt: string, entries: readonly Pick<KeptEntry, 'entry'>[]): Promise<SyncReply>;
  arrivals(arrivals: ArrivalsTold): Promise<void>;
  round(device: DeviceName, cursor: string): Promise<RoundReply>;
  uploadState(sha256: string, pieces: number): Promise<UploadState>;
  upload(sha256: string, index: number, pieces: number, bytes: Uint8Array): Promise<UploadState>;
  thumb(fileId: string): Promise<{ bytes: ArrayBuffer; mime: string }>;
}

const PATIENCE_MS = 30_000;
/** A round of many visits on a slow line; cut short, it would begin anew. */
const ROUND_PATIENCE_MS = 180_000;
/** The slowest line on which what is sent still counts as on its way: 32 kbit/s. */
const SLOWEST_BYTES_PER_MS = 4;
const patienceFor = (bytes: number) => PATIENCE_MS + Math.ceil(bytes / SLOWEST_BYTES_PER_MS);

type Refusal = { error?: { code?: string; message?: string } } | null;

function troubleOf(status: number, error: NonNullable<Refusal>['error']): OfficeError {
  const message = error?.message;
  if (status === 401) return new OfficeError('signed_out', 'Your sign-in has run out. Sign in again; everything on this tablet is kept.');
  // A filter on the way may forbid too; only the office knows whose tablet this is.
  if (status === 403 && error?.code === 'not_allowed')
    return new OfficeError('not_allowed', message ?? 'The office does not take this from this sign-in.');
  if ([400, 413, 415].includes(status)) return new OfficeError('refused', message ?? 'The office could not read it.');
  return new OfficeError('failed', message ?? 'The office answered with an error. It will be tried again.');
}

/** The office over HTTP. `base` is empty in the browser. */
export function officeOverHttp(base = '', via: typeof fetch = (input, init) => fetch(input, init)): Office {
  async function ask(path: string, init: RequestInit = {}, patienceMs = PATIENCE_MS): Promise<Response> {
    let reply: Response;
    try {
      reply = await via(base + path, {
        ...init,
        credentials: 'same-origin',
        cache: 'no-store',
        redirect: 'error',
        signal: AbortSignal.timeout(patienceMs),
      });
    } catch {
      throw new OfficeError('offline', 'The office cannot be reached.');
    }
    if (reply.ok) return reply;
    throw troubleOf(reply.status, ((await reply.json().catch(() => null)) as Refusal)?.error);
  }
  /** A reply cut short is no reply: the request is made again, and the office knows it has seen it. */
  async function json<T>(reply: Promise<Response>): Promise<T> {
    const response = await reply;
    try {
      return (await response.json()) as T;
    } catch {
      throw new OfficeError('offline', 'The office’s answer did not arrive whole.');
    }
  }
  const upload = (q: Record<string, string | number>) =>
    `/api/files?${new URLSearchParams(Object.entries(q).map(([k, v]) => [k, String(v)]))}`;
  return {
    send(device, sentAt, entries) {
      const body = new Blob([JSON.stringify({ device, sentAt, entries: entries.map((k) => k.entry) })]);
      const init = { method: 'POST', headers: { 'content-type': 'application/json' }, body };
      return json(ask('/api/sync', init, patienceFor(body.size)));
    },
    async arrivals(arrivals) {
      await ask('/api/arrivals', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(arrivals) });
    },
    round: (device, cursor) =>
      json(
        ask(
          `/api/sync/round?${new URLSearchParams({ device: device.id, ...(device.holder ? { holder: device.holder } : {}), name: device.name, app: device.appVersion, cursor })}`,
          {},
          ROUND_PATIENCE_MS,
        ),
      ),
    uploadState: (sha256, pieces) => json(ask(upload({ sha256, pieces }))),
    upload: (sha256, index, pieces, bytes) =>
      // A blob leaves beside the page's own work; plain bytes would be copied by it.
      json(
        ask(
          upload({ sha256, index, pieces }),
          { method: 'PUT', headers: { 'content-type': 'application/octet-stream' }, body: new Blob([bytes as BlobPart]) },
          patienceFor(bytes.byteLength),
        ),
      ),
    async thumb(fileId) {
      const reply = await ask(`/api/files/${fileId}?size=thumb`);
      return { bytes: await reply.arrayBuffer(), mime: reply.headers.get('content-type') ?? 'image/jpeg' };
    },
  };
}
