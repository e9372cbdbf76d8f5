import type { ArrivalFix, EntryKind, Payloads } from '../core/tablet';
import { answerArrivals, keepArrival, sendArrivals } from './arrivals';
import { openDatabase, STRICT, type Database } from './database';
import { makeRoom } from './held-pictures';
import { identity, openFor } from './identity';
import { writeDown, type Said, type TakenPhoto } from './journal';
import { OfficeError, type AppName, type Office } from './office';
import { holderOrOnDisk, letGo, remember } from './people';
import { keepRound, refresh } from './refresh';
import { fetchThumbs, markPicture, sendPhotos } from './send-photos';
import { sendLost, sendWaiting } from './send-waiting';
import { EMPTY, readSnapshot, withEntry, type Snapshot } from './snapshot';
import { OUTDATED, StorageError, troubleOf, type StorageTrouble } from './storage-trouble';

/** Rounds of sending and asking within one talk, should an office keep losing what it has. */
const MOST_ROUNDS = 3;

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
  private talkTrouble: StorageTrouble | null = null;

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

  /** The browser dropped the connection, as some do with a page long out of sight. */
  private readonly lost = (): void => {
    this.db = null;
    void this.open();
  };

  /** Shows what the tablet has, then asks the office. */
  async start(): Promise<void> {
    await this.open();
    if (this.snapshot.phase !== 'refused') await this.sync();
  }

  /** Shows what the tablet has; without anybody's work on it there is nothing yet. */
  async open(): Promise<void> {
    const who = await holderOrOnDisk();
    try {
      if (who) {
        this.db = await openDatabase(who, this.outdated, this.lost);
        await this.reload();
        if (this.snapshot.me) return this.set({ phase: 'ready' });
        // The browser cleared the storage but not the name: begun anew, as on a new tablet.
        this.db.close();
        this.db = null;
      }
    } catch (error) {
      this.set({ phase: 'refused', trouble: troubleOf(error, 'open') });
    }
  }

  /** Reads everything anew: another window may have written. */
  async reload(): Promise<void> {
    if (this.db) this.set(await readSnapshot(this.db));
  }

  /** Durable when it resolves. @throws StorageError, already on the snapshot */
  async write<K extends EntryKind>(visitId: string, kind: K, payload: Payloads[K], photo?: TakenPhoto): Promise<string> {
    const [id = ''] = await this.writeAll(visitId, [{ kind, payload } as Said], photo);
    return id;
  }

  /** All that one tap says, or nothing of it; durable when it resolves. @throws StorageError, already on the snapshot */
  async writeAll(visitId: string, said: readonly Said[], photo?: TakenPhoto): Promise<string[]> {
    if (said.length === 0) return [];
    const work = this.keep(visitId, said, photo);
    this.writing = Promise.allSettled([this.writing, work]);
    return work;
  }

  /** Entries and pictures that only this tablet has, those being written included. */
  async unsent(): Promise<number> {
    await this.writing;
    return this.snapshot.waiting + this.snapshot.photos.length;
  }

  private async keep(visitId: string, said: readonly Said[], photo?: TakenPhoto): Promise<string[]> {
    if (!this.db) throw new StorageError(troubleOf(null, 'open'));
    try {
      const kept = await this.fitting(this.db, (db) => writeDown(db, this.given.clock, visitId, said, photo));
      const struck = said.flatMap((s) => (s.kind === 'entry.strike' ? [s.payload.entryId] : []));
      // A picture taken back need not travel; if it does, the office drops it.
      for (const id of struck) await this.db.delete('photos', id).catch(() => {});
      const after = kept.reduce((snapshot, one) => ({ ...snapshot, ...withEntry(snapshot, one) }), this.snapshot);
      const taken = photo && kept[0] ? [{ id: kept[0].id, visitId, problem: '' }] : [];
      const photos = [...after.photos, ...taken].filter((p) => !struck.includes(p.id));
      this.set({ ...after, photos, trouble: null });
      this.given.onChange?.();
      return kept.map((one) => one.id);
    } catch (error) {
      this.set({ trouble: this.troubleBy(error) });
      throw error;
    }
  }

  /** On a full tablet, pictures that the office has make room for what it has not, and it is tried once more. */
  private async fitting<T>(db: Database, work: (db: Database) => Promise<T>): Promise<T> {
    try {
      return await work(db);
    } catch (error) {
      const full = error instanceof StorageError && error.trouble.code === 'full';
      if (!full || !(await makeRoom(db).catch(() => false))) throw error;
      return work(db);
    }
  }

  /** Once a newer version has taken the storage over, that is what is wrong, whatever else fails for it. */
  private troubleBy(error: unknown, during: 'write' | 'talk' = 'write'): StorageTrouble {
    if (this.snapshot.trouble?.code === 'outdated') return OUTDATED;
    return error instanceof StorageError ? error.trouble : troubleOf(error, during);
  }

  /** The office's time by what the tablet knows of its own clock: for times named in an entry. */
  now(): string {
    return new Date(this.given.clock() + this.snapshot.skewMs).toISOString();
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
    const { office } = this.given;
    try {
      if (!this.db) await this.begin();
      const db = this.db as Database;
      this.set({ line: 'sending', lineWords: '' });
      const trouble = await this.exchange(db);
      // An entry just written is small and goes before the pictures.
      const wanted = () => this.next !== null;
      await sendPhotos(db, office, () => this.given.clock() + this.snapshot.skewMs, wanted);
      if (trouble) throw trouble;
      await fetchThumbs(db, office, wanted);
      await this.reload();
      this.set({ phase: 'ready', line: 'idle', lineWords: '', sendingIds: new Set(), trouble: this.lastingTrouble() });
    } catch (error) {
      await this.tell(error);
    }
  }

  /**
   * Entries out, the round in. Trouble with the tablet's own storage is handed back: the pictures are to go all the
   * same, which is what makes room on a full one.
   * @throws OfficeError
   */
  private async exchange(db: Database): Promise<unknown> {
    const { office, clock, name } = this.given;
    try {
      for (let round = 0, again = true; again && round < MOST_ROUNDS; round++) {
        await sendWaiting(db, office, { clock, name, onBatch: (ids) => this.set({ sendingIds: new Set(ids) }) });
        // No entry waits for these.
        await sendArrivals(db, office).catch(() => {});
        const { id } = await identity(db);
        again = await sendLost(db, id, (await refresh(db, office, clock, name)).lastSeq);
      }
      await this.reload();
      return null;
    } catch (error) {
      if (error instanceof OfficeError) throw error;
      // Small pictures of earlier visits can be fetched again, and what has arrived is in the office.
      if (troubleOf(error, 'talk').code === 'full') {
        await db.clear('thumbs').catch(() => {});
        await makeRoom(db).catch(() => {});
      }
      return error;
    }
  }

  /** First use, or someone else's: who is signed in, and their round. What was open before is let go only then. */
  private async begin(): Promise<void> {
    const { office, clock, name } = this.given;
    const deviceId = crypto.randomUUID();
    const asked = clock();
    const reply = await office.round({ id: deviceId, ...name }, '');
    const skew = Date.parse(reply.serverTime) - (asked + clock()) / 2;
    this.db?.close();
    if (this.snapshot.me && this.snapshot.me.userId !== reply.me.userId)
      this.set({ ...EMPTY, phase: 'starting', persisted: this.snapshot.persisted });
    this.db = await openFor(reply.me, deviceId, this.outdated, this.lost).catch((e) => {
      throw new StorageError(troubleOf(e, 'open'));
    });
    await remember({ userId: reply.me.userId, name: reply.me.name });
    await keepRound(this.db, { ...reply, cursor: '' }, skew);
    await this.reload();
    this.set({ phase: 'ready' });
  }

  /** What a talk found wrong with the storage is over once a talk goes well; what a writing found stands until one does. */
  private lastingTrouble(): StorageTrouble | null {
    const { trouble } = this.snapshot;
    return trouble === this.talkTrouble && trouble?.code !== 'outdated' ? null : trouble;
  }

  private async tell(error: unknown): Promise<void> {
    if (this.db) await this.reload().catch(() => {});
    const started = this.snapshot.phase === 'ready';
    const sendingIds = new Set<string>();
    if (!(error instanceof OfficeError)) {
      const trouble = this.troubleBy(error, 'talk');
      this.talkTrouble = trouble;
      return this.set({ sendingIds, line: 'failed', lineWords: trouble.message, trouble, phase: started ? 'ready' : 'refused' });
    }
    if (error.trouble === 'not_allowed' && started) return this.someoneElse(error);
    const line = error.trouble === 'offline' ? 'offline' : error.trouble === 'signed_out' ? 'signed_out' : 'failed';
    const phase = started ? 'ready' : line === 'signed_out' ? 'sign_in' : 'no_round';
    this.set({ sendingIds, line, lineWords: error.text, phase });
  }

  /** Someone else signed in on this tablet: their round is shown, the other's work stays in its own database. */
  private async someoneElse(error: OfficeError): Promise<void> {
    const before = this.snapshot.me?.userId;
    await this.begin().catch(() => {});
    if (this.snapshot.me?.userId !== before) void this.sync();
    else this.set({ sendingIds: new Set(), line: 'failed', lineWords: error.text });
  }

  /** The answer of the office to an entry has been read. */
  async markSeen(id: string): Promise<void> {
    if (!this.db) return;
    const tx = this.db.transaction('entries', 'readwrite', STRICT);
    const kept = await tx.store.get(id);
    if (kept) await tx.store.put({ ...kept, seen: true });
    await tx.done;
    await this.reload();
  }

  /** Whether arrivals may be told, as the person has just said. */
  async allowArrivals(allow: boolean): Promise<void> {
    if (this.db) await answerArrivals(this.db, allow);
    await this.reload();
    await this.sync();
  }

  /** Where the tablet was as its person arrived. It waits here until the office is told. */
  async arrivedAt(fix: Omit<ArrivalFix, 'id' | 'at'>): Promise<void> {
    if (!this.db || !this.snapshot.me?.sharesArrivals) return;
    await keepArrival(this.db, { ...fix, id: crypto.randomUUID(), at: this.now() });
    await this.sync();
  }

  /** A picture the office refused is offered once more. */
  async tryPicture(id: string): Promise<void> {
    if (this.db) await markPicture(this.db, id, { waiting: 1, problem: '' });
    await this.reload();
    await this.sync();
  }

  get database(): Database | null {
    return this.db;
  }

  setPersisted(persisted: boolean | null): void {
    this.set({ persisted });
  }

  /** Only with nothing unsent: what is signed out of is forgotten as the tablet's holder, not deleted. */
  async leave(): Promise<void> {
    await letGo();
    this.db?.close();
    this.db = null;
    this.set({ ...EMPTY, phase: 'sign_in' });
  }
}
