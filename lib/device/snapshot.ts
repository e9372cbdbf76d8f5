import { foldVisit, type Me, type VisitOnFile } from '../core/round';
import { metaOf, readMeta, type Database, type KeptOperation, type KeptPhoto } from './database';
import { allOperations } from './journal';
import type { StorageTrouble } from './storage-trouble';

export type EntryState = 'here' | 'sending' | 'office' | 'conflict' | 'rejected';

export type Line = 'idle' | 'sending' | 'offline' | 'signed_out' | 'failed';

/** Everything the screens show, from the tablet's own storage. Never changed, only replaced. */
export type Snapshot = {
  phase: 'starting' | 'no_round' | 'sign_in' | 'refused' | 'ready';
  me: Me | null;
  /** With the tablet's own entries laid over them, in the order of the day. */
  visits: readonly VisitOnFile[];
  operations: ReadonlyMap<string, KeptOperation>;
  sendingIds: ReadonlySet<string>;
  photos: readonly Pick<KeptPhoto, 'id' | 'visitId' | 'problem'>[];
  waiting: number;
  line: Line;
  lineWords: string;
  refreshedAt: string | null;
  trouble: StorageTrouble | null;
  /** Whether the browser promised not to clear the storage by itself; null when it did not say. */
  persisted: boolean | null;
};

export const EMPTY: Snapshot = {
  phase: 'starting', me: null, visits: [], operations: new Map(), sendingIds: new Set(), photos: [], waiting: 0,
  line: 'idle', lineWords: '', refreshedAt: null, trouble: null, persisted: null,
};

/** What is in the database, as the screens want it. */
export async function readSnapshot(db: Database): Promise<Pick<Snapshot, 'me' | 'visits' | 'operations' | 'photos' | 'waiting' | 'refreshedAt'>> {
  const meta = metaOf(db);
  const [visits, kept, onTheWay, refused, appliedSeq = 0, order = [], me = null, refreshedAt = null] = await Promise.all([
    db.getAll('visits'),
    allOperations(db),
    // Keys alone: sixty pictures are many megabytes.
    db.getAllKeysFromIndex('photos', 'waiting', 1),
    db.getAllFromIndex('photos', 'waiting', 2),
    readMeta(meta, 'appliedSeq'),
    readMeta(meta, 'order'),
    readMeta(meta, 'me'),
    readMeta(meta, 'refreshedAt'),
  ]);
  const place = (v: VisitOnFile) => (order.includes(v.id) ? order.indexOf(v.id) : Infinity);
  const overlay = kept.filter((k) => k.waiting || (k.seq > appliedSeq && k.outcome !== 'rejected')).map((k) => k.op);
  const operations = new Map(kept.map((k) => [k.id, k]));
  return {
    me,
    visits: visits.sort((a, b) => place(a) - place(b) || a.startsAt.localeCompare(b.startsAt)).map((v) => foldVisit(v, overlay)),
    operations,
    photos: [...onTheWay.map((id) => ({ id, visitId: operations.get(id)?.visitId ?? '', problem: '' })), ...refused.map(({ id, visitId, problem }) => ({ id, visitId, problem }))],
    waiting: kept.filter((k) => k.waiting).length,
    refreshedAt,
  };
}

/** How far an entry has come; one the tablet keeps nothing of came from the office. */
export function entryState(s: Pick<Snapshot, 'operations' | 'sendingIds'>, id: string): EntryState {
  const kept = s.operations.get(id);
  if (!kept) return 'office';
  if (kept.waiting) return s.sendingIds.has(id) ? 'sending' : 'here';
  return kept.outcome === 'conflict' || kept.outcome === 'rejected' ? kept.outcome : 'office';
}

/** The snapshot after one more entry. */
export function withEntry(s: Snapshot, kept: KeptOperation): Snapshot {
  return {
    ...s,
    visits: s.visits.map((v) => (v.id === kept.visitId ? foldVisit(v, [kept.op]) : v)),
    operations: new Map(s.operations).set(kept.id, kept),
    waiting: s.waiting + 1,
  };
}
