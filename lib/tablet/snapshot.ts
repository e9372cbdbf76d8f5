import { foldVisit, upgradedEntry, type Me, type VisitOnFile } from '../core/tablet';
import { followHabits } from '../core/measures/habits';
import { readMeta, type Database, type KeptEntry, type KeptPhoto } from './database';
import { waitingRange } from './journal';
import type { StorageTrouble } from './storage-trouble';

export type EntryState = 'here' | 'sending' | 'office' | 'conflict' | 'rejected';

export type Line = 'idle' | 'sending' | 'offline' | 'signed_out' | 'failed';

/** Everything the screens show, from the tablet's own storage. Never changed, only replaced. */
export type Snapshot = {
  phase: 'starting' | 'no_round' | 'sign_in' | 'refused' | 'ready';
  me: Me | null;
  /** With the tablet's own entries laid over them, in the order of the day. */
  visits: readonly VisitOnFile[];
  /** Those that may still need a look; see readSnapshot. */
  entries: ReadonlyMap<string, KeptEntry>;
  sendingIds: ReadonlySet<string>;
  photos: readonly Pick<KeptPhoto, 'id' | 'visitId' | 'problem'>[];
  /** Of this tablet, neither here any more nor in the office: lost to a restored backup. */
  lostPhotos: readonly { id: string; visitId: string; unitId: string | null }[];
  waiting: number;
  line: Line;
  lineWords: string;
  refreshedAt: string | null;
  /** Milliseconds to add to this tablet's clock to get the office's. */
  skewMs: number;
  trouble: StorageTrouble | null;
  /** Whether the browser promised not to clear the storage by itself; null when it did not say. */
  persisted: boolean | null;
};

export const EMPTY: Snapshot = {
  phase: 'starting',
  me: null,
  visits: [],
  entries: new Map(),
  sendingIds: new Set(),
  photos: [],
  lostPhotos: [],
  waiting: 0,
  line: 'idle',
  lineWords: '',
  refreshedAt: null,
  skewMs: 0,
  trouble: null,
  persisted: null,
};

/**
 * What is in the database, as the screens want it: of the entries only those that wait, those the office's round does
 * not show yet, and those it answered with a question or a no.
 */
export async function readSnapshot(
  db: Database,
): Promise<Pick<Snapshot, 'me' | 'visits' | 'entries' | 'photos' | 'lostPhotos' | 'waiting' | 'refreshedAt' | 'skewMs'>> {
  const tx = db.transaction(['meta', 'visits', 'entries', 'photos']);
  const [meta, entries, pictures] = [tx.objectStore('meta'), tx.objectStore('entries'), tx.objectStore('photos')];
  const [appliedSeq = 0, skewMs = 0] = await Promise.all([readMeta(meta, 'appliedSeq'), readMeta(meta, 'skewMs')]);
  const [visits, order = [], me = null, refreshedAt = null, onTheWay, refused, ...lists] = await Promise.all([
    tx.objectStore('visits').getAll(),
    readMeta(meta, 'order'),
    readMeta(meta, 'me'),
    readMeta(meta, 'refreshedAt'),
    // Keys alone: sixty pictures are many megabytes.
    pictures.index('waiting').getAllKeys(1),
    pictures.index('waiting').getAll(2),
    entries.index('waiting').getAll(waitingRange()),
    entries.index('seq').getAll(IDBKeyRange.lowerBound(appliedSeq, true)),
    entries.index('outcome').getAll('conflict'),
    entries.index('outcome').getAll('rejected'),
  ]);
  const kept = [...new Map(lists.flat().map((k) => [k.id, k])).values()].sort((a, b) => a.seq - b.seq);
  const overlay = kept.filter((k) => k.waiting || (k.seq > appliedSeq && k.outcome !== 'rejected')).map((k) => upgradedEntry(k.entry));
  const of = await Promise.all(onTheWay.map((id) => entries.get(id)));
  const lostPhotos = await lostOf(visits, appliedSeq, {
    entry: (id) => entries.get(id),
    held: async (id) => (await pictures.getKey(id)) !== undefined,
  });
  followHabits({ dates: me?.dates ?? 'day_first' });
  const place = (v: VisitOnFile) => (order.includes(v.id) ? order.indexOf(v.id) : Infinity);
  return {
    me,
    visits: visits.sort((a, b) => place(a) - place(b) || a.startsAt.localeCompare(b.startsAt)).map((v) => foldVisit(v, overlay)),
    entries: new Map(kept.map((k) => [k.id, k])),
    photos: [
      ...onTheWay.map((id, i) => ({ id, visitId: of[i]?.visitId ?? '', problem: '' })),
      ...refused.map(({ id, visitId, problem }) => ({ id, visitId, problem })),
    ],
    lostPhotos,
    waiting: kept.filter((k) => k.waiting).length,
    refreshedAt,
    skewMs,
  };
}

/** Pictures that this tablet wrote down and no longer holds, and that the office has no file of. */
async function lostOf(
  visits: readonly VisitOnFile[],
  appliedSeq: number,
  on: { entry: (id: string) => Promise<KeptEntry | undefined>; held: (id: string) => Promise<boolean> },
): Promise<Snapshot['lostPhotos']> {
  const lost: { id: string; visitId: string; unitId: string | null }[] = [];
  for (const visit of visits)
    for (const { id, fileId, unitId } of visit.entries.photos) {
      if (fileId !== null) continue;
      const own = await on.entry(id);
      if (own && !own.waiting && own.seq <= appliedSeq && !(await on.held(id))) lost.push({ id, visitId: visit.id, unitId });
    }
  return lost;
}

/** How far an entry has come; one the snapshot does not hold is in the office. */
export function entryState(s: Pick<Snapshot, 'entries' | 'sendingIds'>, id: string): EntryState {
  const kept = s.entries.get(id);
  if (!kept) return 'office';
  if (kept.waiting) return s.sendingIds.has(id) ? 'sending' : 'here';
  return kept.outcome === 'conflict' || kept.outcome === 'rejected' ? kept.outcome : 'office';
}

/** The snapshot after one more entry. */
export function withEntry(s: Snapshot, kept: KeptEntry): Snapshot {
  return {
    ...s,
    visits: s.visits.map((v) => (v.id === kept.visitId ? foldVisit(v, [kept.entry]) : v)),
    entries: new Map(s.entries).set(kept.id, kept),
    waiting: s.waiting + 1,
  };
}
