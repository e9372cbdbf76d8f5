import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { afterEach, expect, test } from 'vitest';
import type { VisitOnFile } from '@/lib/core/tablet';
import { forget, openDatabase } from '@/lib/tablet/database';
import { databaseName } from '@/lib/tablet/database-name';
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
  op: { id: `o${seq}`, seq, kind: 'part.use', visitId: 'v1', payload: {} },
  note: '',
  outcome: null,
  ...more,
});

/** As a tablet of the first layout left it. */
async function firstLayout() {
  const db = await openDB(databaseName(WHO), 1, {
    upgrade(d) {
      d.createObjectStore('meta');
      d.createObjectStore('visits', { keyPath: 'id' });
      const operations = d.createObjectStore('operations', { keyPath: 'id' });
      operations.createIndex('waiting', ['waiting', 'seq']);
      operations.createIndex('visit', 'visitId');
      d.createObjectStore('photos', { keyPath: 'id' }).createIndex('waiting', 'waiting');
      d.createObjectStore('thumbs', { keyPath: 'fileId' });
    },
  });
  await db.put('visits', visit);
  await db.put('meta', 3, 'appliedSeq');
  for (const k of [
    kept(1, { outcome: 'applied' }),
    kept(2, { outcome: 'conflict', note: 'Moved.' }),
    kept(3, { outcome: 'rejected', note: 'No.' }),
    kept(4, { waiting: 1 }),
  ])
    await db.put('operations', k);
  await db.put('photos', { id: 'o4', visitId: 'v1', sha256: 'x', mime: 'image/jpeg', bytes: new ArrayBuffer(3), waiting: 1, problem: '' });
  db.close();
}

afterEach(() => forget(WHO));

test('a tablet of the first layout keeps everything, and shows what is not settled', async () => {
  await firstLayout();
  const db = await openDatabase(WHO);
  expect(await db.count('operations')).toBe(4);
  const s = await readSnapshot(db);
  expect([...s.operations.keys()]).toEqual(['o2', 'o3', 'o4']);
  expect(s).toMatchObject({ waiting: 1, photos: [{ id: 'o4', visitId: 'v1', problem: '' }] });
  expect(s.visits[0]?.units).toEqual([{ id: 'u1', tasks: [] }]);
  expect(s.visits[0]?.kitchen.utcOffsetMinutes).toBe(-new Date(visit.startsAt).getTimezoneOffset());
  db.close();
});

test('a window with the older layout lets go when a newer one opens, and is told', async () => {
  let letGo = 0;
  await openDatabase(WHO, () => letGo++);
  const newer = await openDB(databaseName(WHO), 99);
  expect(letGo).toBe(1);
  newer.close();
});
