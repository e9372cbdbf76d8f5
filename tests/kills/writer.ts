import { createHash, randomUUID } from 'node:crypto';
import sharp from 'sharp';
import { ENTRY_VERSION } from '@/lib/core/entries/entries';

export type Told = { entries: Set<string>; pictures: Set<string>; sent: Set<string>; answers: Record<string, number>; wrong: string[] };
export type Desk = { base: () => string; cookie: string; holder: string; visitId: string };

const PICTURE_EVERY = 8;
const MOST_AT_ONCE = 4;
const AGAIN_MS = 40;
const PATIENCE_MS = 20_000;
const sleep = (ms: number) => new Promise((ok) => setTimeout(ok, ms));

/** One tablet that writes without a pause, and sends each thing until the office says that it has it. */
export class Writer {
  private readonly device = randomUUID();
  private seq = 0;

  constructor(
    private readonly desk: Desk,
    private readonly told: Told,
  ) {}

  async run(going: () => boolean): Promise<void> {
    for (let n = 0; going(); n++) {
      await this.batch(1 + (n % MOST_AT_ONCE), going);
      if (n % PICTURE_EVERY === 0) await this.picture(going);
    }
  }

  private async batch(count: number, going: () => boolean): Promise<void> {
    const at = new Date().toISOString();
    const { holder, visitId } = this.desk;
    const entries = Array.from({ length: count }, () => {
      const id = randomUUID();
      const payload = { unitId: null, what: `Piece ${id}`, quantity: 1 };
      return { id, seq: ++this.seq, kind: 'part.use', version: ENTRY_VERSION, visitId, madeAt: at, basedOn: at, payload };
    });
    for (const e of entries) this.told.sent.add(e.id);
    const body = JSON.stringify({ device: { id: this.device, holder, name: 'Kill run', appVersion: 'test' }, sentAt: at, entries });
    const reply = await this.until(going, () =>
      this.ask('/api/sync', { method: 'POST', body, headers: { 'content-type': 'application/json' } }),
    );
    const results = (reply as { results?: { id: string; outcome: string }[] } | null)?.results ?? [];
    for (const { id, outcome } of results) {
      if (outcome === 'rejected') this.told.wrong.push(`entry ${id} was refused`);
      this.told.entries.add(id);
    }
    if (reply && results.length < entries.length)
      this.told.wrong.push(`${results.length} of ${entries.length} answered: ${JSON.stringify(reply)}`);
  }

  private async picture(going: () => boolean): Promise<void> {
    const noise = Buffer.from(Array.from({ length: 48 * 48 * 3 }, () => Math.floor(Math.random() * 256)));
    const bytes = await sharp(noise, { raw: { width: 48, height: 48, channels: 3 } })
      .jpeg()
      .toBuffer();
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const reply = await this.until(going, () =>
      this.ask(`/api/files?sha256=${sha256}&pieces=1&index=0`, { method: 'PUT', body: new Uint8Array(bytes) }),
    );
    if ((reply as { done?: boolean } | null)?.done) this.told.pictures.add(sha256);
  }

  /** Asks again until there is an answer, or nobody wants one any more. */
  private async until(going: () => boolean, ask: () => Promise<unknown>): Promise<unknown> {
    for (;;) {
      const reply = await ask().catch(() => null);
      if (reply !== null || !going()) return reply;
      await sleep(AGAIN_MS);
    }
  }

  private async ask(path: string, init: RequestInit): Promise<unknown> {
    const { base, cookie } = this.desk;
    const reply = await fetch(base() + path, {
      ...init,
      headers: { ...init.headers, cookie },
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
    const said = (await reply.json()) as { stopped?: string | null; error?: { code?: string } };
    const count = (what: string) => (this.told.answers[what] = (this.told.answers[what] ?? 0) + 1);
    if (reply.ok && !said.stopped) {
      count('taken');
      return said;
    }
    count(said.stopped ?? said.error?.code ?? String(reply.status));
    if ([400, 401, 403, 404, 409, 413].includes(reply.status))
      this.told.wrong.push(`${path}: ${reply.status} ${JSON.stringify(said).slice(0, 300)}`);
    return null;
  }
}
