import type { OperationKind, Payloads } from '../core/round';
import { openDatabase, type Database, type KeptPhoto } from './database';
import { openFor } from './identity';
import { writeDown } from './journal';
import { OfficeError, type AppName, type Office } from './office';
import { holder, letGo, remember } from './people';
import { keepRound, refresh } from './refresh';
import { fetchThumbs, sendPhotos } from './send-photos';
import { sendWaiting } from './send-waiting';
import { EMPTY, readSnapshot, withEntry, type Snapshot } from './snapshot';
import { OUTDATED, StorageError, troubleOf } from './storage-trouble';

type Given = { office: Office; clock: () => number; name: AppName; onChange?: () => void };

/**
 * The tablet: keeps entries, shows the round from its own storage, and talks to the office when there is signal.
 * Screens read `snapshot` and call `write`; nothing they do waits for the network.
 */
export class Tablet {
  snapshot: Snapshot = EMPTY;
  private db: Database | null = null;
  private running: Promise<void> | null = null;
  private next: Promise<void> | null = null;
  private listeners = new Set<() => void>();
  /** The last write begun, so that whoever leaves can wait for it. */
  private writing: Promise<unknown> = Promise.resolve();

  constructor(private readonly given: Given) {}

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly read = (): Snapshot => this.snapshot;

  private set(change: Partial<Snapshot>): void {
    this.snapshot = { ...this.snapshot, ...change };
    for (const l of this.listeners) l();
  }

  /** A newer version took the storage over: nothing typed in this window could be kept any more. */
  private readonly outdated = (): void => this.set({ trouble: OUTDATED });

  /** Shows what the tablet has, then asks the office. */
  async start(): Promise<void> {
    await this.open();
    if (this.snapshot.phase !== 'refused') await this.sync();
  }

  /** Shows what the tablet has; without anybody's work on it there is nothing yet. */
  async open(): Promise<void> {
    const who = holder();
    try {
      if (who) {
        this.db = await openDatabase(who, this.outdated);
        await this.reload();
        if (this.snapshot.me) this.set({ phase: 'ready' });
      }
    } catch (error) {
      this.set({ phase: 'refused', trouble: troubleOf(error, true) });
    }
  }

  /** Reads everything anew: another window may have written. */
  async reload(): Promise<void> {
    if (this.db) this.set(await readSnapshot(this.db));
  }

  /** Durable when it resolves. @throws StorageError, already on the snapshot */
  write<K extends OperationKind>(visitId: string, kind: K, payload: Payloads[K], photo?: Pick<KeptPhoto, 'sha256' | 'mime' | 'bytes'>): Promise<string> {
    const work = this.keep(visitId, kind, payload, photo);
    this.writing = Promise.allSettled([this.writing, work]);
    return work;
  }

  /** Entries and pictures that only this tablet has, those being written included. */
  async unsent(): Promise<number> {
    await this.writing;
    return this.snapshot.waiting + this.snapshot.photos.length;
  }

  private async keep<K extends OperationKind>(visitId: string, kind: K, payload: Payloads[K], photo?: Pick<KeptPhoto, 'sha256' | 'mime' | 'bytes'>): Promise<string> {
    if (!this.db) throw new StorageError(troubleOf(null, true));
    try {
      const kept = await writeDown(this.db, this.given.clock, { visitId, kind, payload }, photo);
      const change = withEntry(this.snapshot, kept);
      if (photo) change.photos = [...change.photos, { id: kept.id, visitId, problem: '' }];
      if (kind === 'entry.strike') change.photos = await this.dropPicture((payload as Payloads['entry.strike']).entryId);
      this.set({ ...change, trouble: null });
      this.given.onChange?.();
      return kept.id;
    } catch (error) {
      const trouble = error instanceof StorageError ? error.trouble : troubleOf(error);
      this.set({ trouble: this.snapshot.trouble?.code === 'outdated' ? OUTDATED : trouble });
      throw error;
    }
  }

  /** A picture taken back need not travel. */
  private async dropPicture(id: string): Promise<Snapshot['photos']> {
    await this.db?.delete('photos', id);
    return this.snapshot.photos.filter((p) => p.id !== id);
  }

  /** Sends and fetches. A call while one runs makes it run once more, and waits for that: what it wants may have come too late for the first. */
  sync(): Promise<void> {
    if (!this.running) return (this.running = this.talk().finally(() => (this.running = null)));
    this.next ??= this.running
      .catch(() => {})
      .then(() => {
        this.next = null;
        return this.sync();
      });
    return this.next;
  }

  private async talk(): Promise<void> {
    const { office, clock, name } = this.given;
    try {
      if (!this.db) await this.begin();
      const db = this.db as Database;
      this.set({ line: 'sending', lineWords: '' });
      await sendWaiting(db, office, { clock, name, onBatch: (ids) => this.set({ sendingIds: new Set(ids) }) });
      await refresh(db, office, clock, name);
      await this.reload();
      await sendPhotos(db, office);
      await fetchThumbs(db, office);
      await this.reload();
      this.set({ phase: 'ready', line: 'idle', lineWords: '', sendingIds: new Set() });
    } catch (error) {
      await this.tell(error);
    }
  }

  /** First use: who is signed in, and their round. */
  private async begin(): Promise<void> {
    const { office, clock, name } = this.given;
    const deviceId = crypto.randomUUID();
    const asked = clock();
    const reply = await office.round({ id: deviceId, ...name }, '');
    const skew = Date.parse(reply.serverTime) - (asked + clock()) / 2;
    this.db = await openFor(reply.me, deviceId, this.outdated).catch((e) => {
      throw new StorageError(troubleOf(e, true));
    });
    remember({ userId: reply.me.userId, name: reply.me.name });
    await keepRound(this.db, { ...reply, cursor: '' }, skew);
    await this.reload();
    this.set({ phase: 'ready' });
  }

  private async tell(error: unknown): Promise<void> {
    if (this.db) await this.reload().catch(() => {});
    const started = this.snapshot.phase === 'ready';
    const sendingIds = new Set<string>();
    if (error instanceof StorageError) return this.set({ sendingIds, line: 'failed', trouble: error.trouble, phase: started ? 'ready' : 'refused' });
    if (!(error instanceof OfficeError)) return this.set({ sendingIds, line: 'failed', lineWords: troubleOf(error).words, trouble: troubleOf(error) });
    if (error.trouble === 'not_allowed' && started) return this.someoneElse(error);
    const line = error.trouble === 'offline' ? 'offline' : error.trouble === 'signed_out' ? 'signed_out' : 'failed';
    const phase = started ? 'ready' : line === 'signed_out' ? 'sign_in' : 'no_round';
    this.set({ sendingIds, line, lineWords: error.words, phase });
  }

  /** Someone else signed in on this tablet: their round is shown, the other's work stays in its own database. */
  private async someoneElse(error: OfficeError): Promise<void> {
    const before = this.snapshot.me?.userId;
    this.db?.close();
    this.db = null;
    this.set({ ...EMPTY, phase: 'starting', persisted: this.snapshot.persisted });
    try {
      await this.begin();
    } catch {
      this.set({ phase: 'sign_in', line: 'failed', lineWords: error.words });
      return;
    }
    if (this.snapshot.me?.userId !== before) void this.sync();
    else this.set({ line: 'failed', lineWords: error.words });
  }

  /** The answer of the office to an entry has been read. */
  async markSeen(id: string): Promise<void> {
    const kept = await this.db?.get('operations', id);
    if (kept && this.db) await this.db.put('operations', { ...kept, seen: true });
    await this.reload();
  }

  get database(): Database | null {
    return this.db;
  }

  setPersisted(persisted: boolean | null): void {
    this.set({ persisted });
  }

  /** Only with nothing unsent: what is signed out of is forgotten as the tablet's holder, not deleted. */
  leave(): void {
    letGo();
    this.db?.close();
    this.db = null;
    this.set({ ...EMPTY, phase: 'sign_in' });
  }
}
