import 'server-only';
import { STORED_ENTRY_DETAIL } from '../../../database/stored/records';
import type { EntryKind, Payloads } from '../../../core/tablet';
import type { ApplyContext } from './context';

const plain = (text: string) => text.trim().toLowerCase().replace(/\s+/g, ' ');
const HOUR_MS = 3_600_000;
/** Two thermometers in one box: 1 °F each, common practice. */
const SAME_BOX_K = 1.2;

type Sayings = Pick<Payloads, 'part.use' | 'follow_up.add' | 'food_warning.add' | 'event.add'>;
const near = (a: string, b: string) => Math.abs(Date.parse(a) - Date.parse(b)) < HOUR_MS;

/** Whether two entries, each of its own tablet, say one thing. */
const ALIKE: { [K in keyof Sayings]: (a: Sayings[K], b: Sayings[K]) => boolean } = {
  'part.use': (a, b) =>
    a.unitId === b.unitId && plain(a.what) === plain(b.what) && a.quantity === b.quantity && (a.partId ?? null) === (b.partId ?? null),
  'follow_up.add': (a, b) => a.unitId === b.unitId && plain(a.what) === plain(b.what),
  'food_warning.add': (a, b) =>
    a.unitId === b.unitId && Math.abs(a.boxK - b.boxK) < SAME_BOX_K && plain(a.toldTo) === plain(b.toldTo) && near(a.toldAt, b.toldAt),
  'event.add': (a, b) => a.unitId === b.unitId && a.kind === b.kind && plain(a.note) === plain(b.note) && near(a.at, b.at),
};

/**
 * Another tablet's entry that says the same, came to the office after the refresh that this one is based on, and still
 * stands: two people who work side by side each write it down. Its row stands for both.
 */
export async function twinOf<K extends keyof Sayings & EntryKind>(
  { db, visit, deviceId, basedOn }: ApplyContext,
  kind: K,
  payload: Sayings[K],
  stands: (id: string) => Promise<boolean>,
): Promise<string | null> {
  const others = await db.entry.findMany({
    where: { visitId: visit.id, kind, deviceId: { not: deviceId }, outcome: { not: 'rejected' }, receivedAt: { gt: basedOn } },
    orderBy: [{ receivedAt: 'asc' }, { deviceSeq: 'asc' }],
    select: { id: true, payload: true, detail: true },
  });
  for (const other of others) {
    // As it was filed: the schema took it in.
    if (!ALIKE[kind](payload, other.payload as unknown as Sayings[K])) continue;
    const id = STORED_ENTRY_DETAIL.read(other.detail).same ?? other.id;
    if (await stands(id)) return id;
  }
  return null;
}

/** Another tablet's entry that has this one's row stand for it too. */
export async function standsForAnother({ db, visit, deviceId }: ApplyContext, entryId: string): Promise<boolean> {
  const other = await db.entry.findFirst({
    where: { visitId: visit.id, deviceId: { not: deviceId }, detail: { path: ['same'], equals: entryId } },
    select: { id: true },
  });
  return other !== null;
}
