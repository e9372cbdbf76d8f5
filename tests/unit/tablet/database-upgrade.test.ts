import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { afterEach, expect, test } from 'vitest';
import type { VisitOnFile } from '@/lib/core/tablet';
import { forget, openDatabase } from '@/lib/tablet/database';
import { databaseName } from '@/lib/tablet/database-name';
import { makeHandover, readHandover } from '@/lib/tablet/handover';
import { waitingEntries } from '@/lib/tablet/journal';
import { readSnapshot } from '@/lib/tablet/snapshot';

const WHO = 'upgrade-test';
const visit = {
  id: 'v1',
  startsAt: '2026-11-25T16:00:00.000Z',
  endsAt: '2026-11-25T17:00:00.000Z',
  kitchen: { timeZone: 'America/Denver' },
  tasks: [],
  units: [{ id: 'u1' }],
  entries: { parts: [], photos: [] },
} as unknown as VisitOnFile;
const kept = (seq: number, more: object) => ({
  id: `o${seq}`,
  visitId: 'v1',
  seq,
  entry: { id: `o${seq}`, seq, kind: 'part.use', visitId: 'v1', payload: {} },
  note: '',
  outcome: null,
  ...more,
});

const ROWS = [
  kept(1, { outcome: 'applied' }),
  kept(2, { outcome: 'conflict', note: 'Moved.' }),
  kept(3, { outcome: 'rejected', note: 'No.' }),
  kept(4, { waiting: 1 }),
];
const PHOTO = { id: 'o4', visitId: 'v1', sha256: 'x', mime: 'image/jpeg', bytes: new ArrayBuffer(3), waiting: 1, problem: '' };

/** As a tablet of an earlier layout left it, 1 to 4: its rows called their entry `op`, and up to 3 they lay under another name. */
async function earlierLayout(layout: number) {
  const store = layout < 4 ? 'operations' : 'entries';
  const db = await openDB(databaseName(WHO), layout, {
    upgrade(d) {
      d.createObjectStore('meta');
      d.createObjectStore('visits', { keyPath: 'id' });
      const operations = d.createObjectStore(store, { keyPath: 'id' });
      operations.createIndex('waiting', ['waiting', 'seq']);
      operations.createIndex('visit', 'visitId');
      if (layout > 1) for (const name of ['seq', 'outcome']) operations.createIndex(name, name);
      const photos = d.createObjectStore('photos', { keyPath: 'id' });
      photos.createIndex('waiting', 'waiting');
      if (layout > 2) photos.createIndex('sent', 'sentAt');
      d.createObjectStore('thumbs', { keyPath: 'fileId' });
    },
  });
  await db.put('visits', visit);
  await db.put('meta', 3, 'appliedSeq');
  await db.put('meta', 'd1', 'deviceId');
  await db.put('meta', { userId: WHO, name: 'Rosa' }, 'me');
  for (const { entry, ...k } of ROWS) await db.put(store, { ...k, op: entry });
  await db.put('photos', PHOTO);
  db.close();
}

afterEach(() => forget(WHO));

test.each([1, 2, 3, 4])('a tablet of layout %i keeps every entry and picture, and shows what is not settled', async (layout) => {
  await earlierLayout(layout);
  const db = await openDatabase(WHO);
  expect([...db.objectStoreNames]).toEqual(['entries', 'meta', 'photos', 'thumbs', 'visits']);
  expect(await db.getAll('entries')).toEqual(ROWS);
  expect(await db.getAll('photos')).toEqual([PHOTO]);
  const s = await readSnapshot(db);
  expect([...s.entries.keys()]).toEqual(['o2', 'o3', 'o4']);
  expect(s).toMatchObject({ waiting: 1, photos: [{ id: 'o4', visitId: 'v1', problem: '' }] });
  if (layout < 3) expect(s.visits[0]?.units).toEqual([{ id: 'u1', tasks: [] }]);
  if (layout < 2) expect(s.visits[0]?.kitchen.utcOffsetMinutes).toBe(-new Date(visit.startsAt).getTimezoneOffset());
  db.close();
});

test.each([3, 4])('entries of layout %i are sent, in order, after the way up', async (layout) => {
  await earlierLayout(layout);
  const db = await openDatabase(WHO);
  expect((await waitingEntries(db)).map((k) => k.entry)).toEqual([ROWS[3]?.entry]);
  const file = await makeHandover(db, { name: 'Tablet', appVersion: 'x' }, 0);
  expect(file.entries).toEqual([ROWS[3]?.entry]);
  db.close();
});

test('a file of unsent work is read as it was written before, and as it is written now', () => {
  const entries = [ROWS[3]?.entry];
  const rest = {
    format: 'rimebook-handover',
    device: { id: 'd', holder: WHO, name: 'Tablet', appVersion: 'x' },
    madeAt: 'then',
    photos: [],
  };
  const read = { ...rest, version: 2, entries };
  expect(readHandover(JSON.stringify({ ...rest, version: 1, operations: entries }))).toEqual(read);
  expect(readHandover(JSON.stringify(read))).toEqual(read);
  for (const odd of [
    '{}',
    'no',
    'null',
    JSON.stringify({ ...rest, version: 3, entries }),
    JSON.stringify({ ...rest, version: 1, entries: 7 }),
  ])
    expect(readHandover(odd)).toBeNull();
});

test('a window with the older layout lets go when a newer one opens, and is told', async () => {
  let letGo = 0;
  await openDatabase(WHO, () => letGo++);
  const newer = await openDB(databaseName(WHO), 99);
  expect(letGo).toBe(1);
  newer.close();
});
