import { deleteDB, openDB, unwrap, type DBSchema, type IDBPDatabase, type IDBPObjectStore, type StoreNames } from 'idb';
import { DATABASE_VERSION, databaseName } from './database-name';
import type { ArrivalFix, Me, Entry, Outcome, VisitOnFile } from '../core/tablet';

/** An entry with how far it has come. */
export type KeptEntry = {
  id: string;
  visitId: string;
  seq: number;
  entry: Entry;
  /** 1 while the office has not answered; absent afterwards. */
  waiting?: 1;
  outcome: Outcome | null;
  /** What the office said about it. */
  note: string;
  /** The technician has read the office's answer. */
  seen?: boolean;
};

/**
 * A picture of this tablet: waiting 1, or 2 when the office refused it. Once it has arrived its bytes stay, with the
 * office's time of that, until the office has a backup from after it: see settlePictures. What it shows stays with its entry.
 */
export type KeptPhoto = {
  id: string;
  visitId: string;
  sha256: string;
  mime: string;
  bytes: ArrayBuffer;
  waiting?: 1 | 2;
  /** Epoch milliseconds. */
  sentAt?: number;
  problem: string;
};
export type KeptThumb = { fileId: string; bytes: ArrayBuffer; mime: string };

/** What the tablet knows about itself and the office; one row each. */
export type Meta = {
  deviceId: string;
  me: Me;
  nextSeq: number;
  /** Milliseconds to add to this tablet's clock to get the office's. */
  skewMs: number;
  lastMadeAt: number;
  /** Server time of the last refresh. */
  refreshedAt: string;
  cursor: string;
  order: string[];
  /** Where the tablet was at arrivals that the office has not been told of, and an answer about that which it has not. */
  arrivals: readonly ArrivalFix[];
  arrivalsAnswer: boolean;
  /** Own entries up to here are in what the office told. */
  appliedSeq: number;
};

export interface Schema extends DBSchema {
  meta: { key: string; value: unknown };
  visits: { key: string; value: VisitOnFile };
  entries: { key: string; value: KeptEntry; indexes: { waiting: [number, number]; visit: string; seq: number; outcome: Outcome } };
  photos: { key: string; value: KeptPhoto; indexes: { waiting: number; sent: number } };
  thumbs: { key: string; value: KeptThumb };
}
export type Database = IDBPDatabase<Schema>;

type Visits = IDBPObjectStore<Schema, StoreNames<Schema>[], 'visits', 'versionchange'>;
/**
 * Visits as an older layout kept them: from before the office told their kitchen's clock (the tablet's own, until the next
 * refresh), and their units' recurring tasks.
 */
async function bringUp(visits: Visits, from: number): Promise<void> {
  for (const v of await visits.getAll()) {
    const units = v.units.map((u) => ({ ...u, tasks: u.tasks ?? [] }));
    const kitchen = from < 2 ? { ...v.kitchen, utcOffsetMinutes: -new Date(v.startsAt).getTimezoneOffset() } : v.kitchen;
    await visits.put({ ...v, kitchen, units });
  }
}

type Rows = IDBPObjectStore<Schema, StoreNames<Schema>[], 'entries', 'versionchange'>;
/** Rows whose entry lay under another name, as before layout 5. */
async function nameEntries(rows: Rows): Promise<void> {
  for (let at = await rows.openCursor(); at; at = await at.continue()) {
    const { op, ...kept } = at.value as KeptEntry & { op?: Entry };
    if (op) await at.update({ ...kept, entry: op });
  }
}

/** A person's database in today's layout. `onOutdated`: a newer version has taken it over, this connection is closed. `onLost`: the browser dropped the connection. */
export function openDatabase(userId: string, onOutdated: () => void = () => {}, onLost: () => void = () => {}): Promise<Database> {
  return openDB<Schema>(databaseName(userId), DATABASE_VERSION, {
    upgrade(db, from, _, tx) {
      if (from < 1) {
        db.createObjectStore('meta');
        db.createObjectStore('visits', { keyPath: 'id' });
        const entries = db.createObjectStore('entries', { keyPath: 'id' });
        entries.createIndex('waiting', ['waiting', 'seq']);
        entries.createIndex('visit', 'visitId');
        db.createObjectStore('photos', { keyPath: 'id' }).createIndex('waiting', 'waiting');
        db.createObjectStore('thumbs', { keyPath: 'fileId' });
      } else if (from < 4) {
        // Entries lay under another name. The store itself is renamed, in the transaction of the whole way up: no row is
        // read, copied or written, and where anything fails all stays as it was.
        unwrap(tx).objectStore('operations').name = 'entries';
      }
      // A day's worth of filed entries is kept for an office that lost them; a screen is not to read them all.
      if (from < 2) {
        tx.objectStore('entries').createIndex('seq', 'seq');
        tx.objectStore('entries').createIndex('outcome', 'outcome');
      }
      // Pictures that have arrived stay until the office has proven them safe.
      if (from < 3) {
        tx.objectStore('photos').createIndex('sent', 'sentAt');
        void bringUp(tx.objectStore('visits'), from);
      }
      if (from > 0 && from < 5) void nameEntries(tx.objectStore('entries'));
    },
    // A newer version in another window is not held up by this one.
    blocking(_, __, event) {
      (event.target as IDBDatabase).close();
      onOutdated();
    },
    terminated: onLost,
  });
}

export const forget = (userId: string) => deleteDB(databaseName(userId));

/** Strict: the promise resolves once the data is flushed to the disk, not merely handed over. */
export const STRICT = { durability: 'strict' } as const;

type Store = { get(key: string): Promise<unknown>; put?(value: unknown, key: string): Promise<unknown> };
export const readMeta = async <K extends keyof Meta>(store: Store, key: K): Promise<Meta[K] | undefined> =>
  (await store.get(key)) as Meta[K] | undefined;
export async function writeMeta(store: Store, values: Partial<Meta>): Promise<void> {
  await Promise.all(Object.entries(values).map(([key, value]) => store.put?.(value, key)));
}

/** The meta store outside a transaction of one's own. */
export const metaOf = (db: Database): Store => ({ get: (k) => db.get('meta', k), put: (v, k) => db.put('meta', v, k) });
