import 'fake-indexeddb/auto';
import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { openDB } from 'idb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { CHUNK_BYTES, type Entry, type Payloads } from '@/lib/core/tablet';
import type { Database, KeptEntry } from '@/lib/tablet/database';
import { DATABASE_VERSION, databaseName } from '@/lib/tablet/database-name';
import { makeHandover, takeIn } from '@/lib/tablet/handover';
import { OfficeError, officeOverHttp } from '@/lib/tablet/office';
import { handTo, holder } from '@/lib/tablet/people';
import { entryState } from '@/lib/tablet/snapshot';
import { OUTDATED } from '@/lib/tablet/storage-trouble';
import { Tablet } from '@/lib/tablet/tablet';
import { unsentOfOthers, unsentWork } from '@/lib/tablet/unsent';
import { emptyBrowser } from './support/browser';
import { aVisit, OfficeInMemory } from './support/office';

const NAME = { name: 'Tablet', appVersion: 'test' };
let office: OfficeInMemory;
let now: number;
const tablet = () => new Tablet({ office: office.office, clock: () => now, name: NAME });
const part = (t: Tablet, what: string, visitId = 'v1') => t.write(visitId, 'part.use', { unitId: null, what, quantity: 1 });
const filed = () => [...office.filed.values()].map((o) => (o.payload as { what: string }).what);
const photo = (t: Tablet, sha256: string, bytes = 10) =>
  t.write(
    'v1',
    'photo.attach',
    { unitId: null, aspect: null, phase: 'before', sha256, bytes, takenAt: t.now() },
    { sha256, mime: 'image/jpeg', bytes: new ArrayBuffer(bytes) },
  );

beforeEach(() => {
  vi.restoreAllMocks();
  emptyBrowser();
  office = new OfficeInMemory();
  office.visits = [aVisit('v1'), aVisit('v2')];
  now = Date.now();
});

describe('an office set back to a backup', () => {
  it('gets what it lost, though nothing waits on the tablet', async () => {
    const t = tablet();
    await t.start();
    for (const what of ['a', 'b', 'c', 'd', 'e']) await part(t, what);
    await t.sync();
    office.setBackTo(2);
    await t.sync();
    expect(filed()).toEqual(['a', 'b', 'c', 'd', 'e']);
    expect(t.snapshot).toMatchObject({ waiting: 0, line: 'idle' });
  });

  it('gets what the tablet still has where the first it lost is gone from there too', async () => {
    const t = tablet();
    await t.start();
    await part(t, 'a', 'v1');
    await part(t, 'b', 'v2');
    await part(t, 'c', 'v2');
    await t.sync();
    office.visits = [aVisit('v2')];
    await t.sync();
    office.setBackTo(0);
    await part(t, 'd', 'v2');
    await t.sync();
    expect(filed()).toEqual(['b', 'c', 'd']);
    await part(t, 'e', 'v2');
    await t.sync();
    expect(filed()).toEqual(['b', 'c', 'd', 'e']);
  });

  it('and two windows that find out at once agree on one new identity, and go on', async () => {
    for (let round = 0; round < 10; round++) {
      globalThis.indexedDB = new IDBFactory();
      office = new OfficeInMemory();
      office.visits = [aVisit('v1'), aVisit('v2')];
      office.latency = () => Math.random() * 8;
      const a = tablet();
      await a.start();
      for (let i = 0; i < 5; i++) await part(a, `x${i}`);
      await part(a, 'b', 'v2');
      await a.sync();
      office.visits = [aVisit('v2')];
      await a.sync();
      const b = tablet();
      await b.start();
      office.setBackTo(3);
      for (const what of ['c', 'd', 'e']) await part(a, what, 'v2');
      await Promise.all([a.sync(), b.sync()]);
      await part(a, 'last', 'v2');
      await Promise.all([a.sync(), b.sync()]);
      await a.sync();
      expect(filed().slice(3).sort()).toEqual(['b', 'c', 'd', 'e', 'last']);
      expect(a.snapshot.waiting).toBe(0);
    }
  });
});

describe('what the office answers', () => {
  it('stays with its entry, a question or a no, word for word and after a fall', async () => {
    const t = tablet();
    await t.start();
    const [fine, asked, refused] = [await part(t, 'a'), await part(t, 'b'), await part(t, 'c')];
    office.answers.set(asked, { outcome: 'conflict', note: 'Two of them.' });
    office.answers.set(refused, { outcome: 'rejected', note: 'Not that unit.' });
    expect([fine, asked, refused].map((id) => entryState(t.snapshot, id))).toEqual(['here', 'here', 'here']);
    await t.sync();
    const again = tablet();
    await again.start();
    for (const { snapshot } of [t, again]) {
      expect(snapshot.waiting).toBe(0);
      expect([fine, asked, refused].map((id) => entryState(snapshot, id))).toEqual(['office', 'conflict', 'rejected']);
      expect([asked, refused].map((id) => snapshot.entries.get(id)?.note)).toEqual(['Two of them.', 'Not that unit.']);
    }
  });

  it.each([
    ['gap', 'do not agree'],
    ['renumber', 'do not agree'],
    ['unexpected', 'could not take in the next entry'],
    ['office_older', 'newer than the office'],
  ] as const)('is not asked for again and again where it says "%s", and nothing is lost', async (stopped, words) => {
    const t = tablet();
    await t.start();
    await part(t, 'a');
    const send = vi.spyOn(office.office, 'send').mockResolvedValue({ results: [], lastSeq: 0, stopped });
    await t.sync();
    expect(send.mock.calls.length).toBeLessThan(10);
    expect(t.snapshot).toMatchObject({ waiting: 1, line: 'failed', lineWords: expect.stringContaining(words) });
    send.mockRestore();
    await t.sync();
    expect(filed()).toEqual(['a']);
  });
});

describe('a picture that has arrived', () => {
  const taken = { unitId: null, aspect: null, phase: 'before' as const, sha256: 'p1', bytes: 3, takenAt: '2026-11-25T16:00:00.000Z' };
  const shows = (id: string, fileId: string | null) => {
    const visit = aVisit('v1');
    visit.entries.photos = [{ id, ...taken, fileId }];
    office.visits = [visit];
  };
  const held = async (t: Tablet, id: string) => (await t.database?.get('photos', id)) !== undefined;
  const take = (t: Tablet) => t.write('v1', 'photo.attach', taken, { sha256: 'p1', mime: 'image/jpeg', bytes: new ArrayBuffer(3) });

  it('stays on the tablet until the office has a backup from after it', async () => {
    const t = tablet();
    await t.start();
    const id = await take(t);
    await t.sync();
    shows(id, 'f1');
    office.backedUpAt = new Date(Date.now() - 3_600_000).toISOString();
    await t.sync();
    expect(t.snapshot.photos).toEqual([]);
    expect(await held(t, id)).toBe(true);
    office.backedUpAt = new Date(Date.now() + 3_600_000).toISOString();
    await t.sync();
    expect(await held(t, id)).toBe(false);
    expect(t.snapshot.lostPhotos).toEqual([]);
  });

  it('goes again where a restored backup does not have it, and is said to be lost once nobody has it', async () => {
    const t = tablet();
    await t.start();
    const id = await take(t);
    await t.sync();
    office.whole.clear();
    office.pictures.clear();
    shows(id, null);
    await t.sync();
    expect(office.whole.has('p1')).toBe(true);
    await t.database?.delete('photos', id);
    await t.sync();
    expect(t.snapshot.lostPhotos).toEqual([{ id, visitId: 'v1', unitId: null }]);
  });
});

describe('whose work it is', () => {
  it('someone else’s sign-in is shown their own round; what was written stays its writer’s', async () => {
    const t = tablet();
    await t.start();
    await part(t, 'from Ana');
    office.signedIn = 'maren';
    await t.sync();
    await vi.waitFor(() => expect(t.snapshot.me?.userId).toBe('maren'));
    await part(t, 'from Maren');
    await t.sync();
    expect([...office.filed.values()].map((o) => o.userId)).toEqual(['ana', 'maren']);
  });

  it('whoever signs in is not shown the round of whoever was here before', async () => {
    await tablet().start();
    expect(holder()).toBe('ana');
    await handTo('ana');
    expect(holder()).toBe('ana');
    await handTo('ben');
    const t = tablet();
    await t.open();
    expect(t.snapshot).toMatchObject({ phase: 'starting', visits: [] });
    await expect(part(t, 'nobody’s')).rejects.toThrow();
  });

  it('is known by a tablet that fell before the browser wrote down its name', async () => {
    const fell = tablet();
    await fell.start();
    await part(fell, 'typed');
    localStorage.removeItem('rimebook.holder');
    const t = tablet();
    await t.open();
    expect(t.snapshot).toMatchObject({ phase: 'ready', waiting: 1 });
    expect(await unsentWork()).toBe(1);
    // Signed out, it is nobody's again.
    await t.leave();
    const later = tablet();
    await later.open();
    expect(later.snapshot.phase).toBe('starting');
  });

  it('unsent work of whoever was here before is told, until they have sent it', async () => {
    const ana = tablet();
    await ana.start();
    await part(ana, 'unsent');
    office.signedIn = 'ben';
    await handTo('ben');
    const ben = tablet();
    await ben.start();
    await part(ben, 'his own');
    // His own is no work of others.
    expect(await unsentOfOthers()).toEqual([{ name: 'ana', count: 1 }]);
    await ben.sync();
    office.signedIn = 'ana';
    await handTo('ana');
    await tablet().start();
    expect(filed()).toContain('unsent');
    expect(await unsentOfOthers()).toEqual([]);
  });

  it('unsent are entries and pictures, each counted', async () => {
    const t = tablet();
    await t.start();
    expect(await unsentWork()).toBe(0);
    await photo(t, 'kept');
    expect(await unsentWork()).toBe(2);
    await part(t, 'fan');
    expect([await unsentWork(), await unsentWork('ana'), await unsentWork('ben')]).toEqual([3, 3, 0]);
    await t.sync();
    expect(await unsentWork()).toBe(0);
  });

  it('says that it cannot know, not that nothing is left, where what it keeps cannot be read', async () => {
    const ana = tablet();
    await ana.start();
    await part(ana, 'unsent');
    await handTo('ben');
    const { open } = IDBFactory.prototype;
    IDBFactory.prototype.open = () => {
      throw new DOMException('refused', 'InvalidStateError');
    };
    expect(await unsentWork('ana')).toBeNull();
    expect(await unsentOfOthers()).toEqual([{ name: 'ana', count: null }]);
    IDBFactory.prototype.open = open;
    expect(await unsentWork('ana')).toBe(1);
  });

  it('an answer of something on the way is no answer of the office: the round stays', async () => {
    const filter = officeOverHttp('http://office', async () => new Response('<h1>Forbidden</h1>', { status: 403 }));
    await expect(filter.round({ id: 'x', ...NAME }, '')).rejects.toMatchObject({ trouble: 'failed' });
    const ours = officeOverHttp('http://office', async () =>
      Response.json({ error: { code: 'not_allowed', message: 'No.' } }, { status: 403 }),
    );
    await expect(ours.round({ id: 'x', ...NAME }, '')).rejects.toMatchObject({ trouble: 'not_allowed' });
    const t = tablet();
    await t.start();
    vi.spyOn(office.office, 'round').mockRejectedValue(new OfficeError('not_allowed', 'No.'));
    await t.sync();
    expect(t.snapshot).toMatchObject({ phase: 'ready', line: 'failed' });
    await part(t, 'still kept');
    expect(t.snapshot.waiting).toBe(1);
  });
});

describe('the tablet’s own storage', () => {
  it('taken over by a newer version in another window: nothing is typed here any more', async () => {
    const t = tablet();
    await t.start();
    expect(t.snapshot.trouble).toBeNull();
    const newer = await openDB(databaseName('ana'), DATABASE_VERSION + 1);
    newer.close();
    expect(t.snapshot.trouble).toEqual(OUTDATED);
  });

  it('that the browser promised to keep stays promised when somebody else signs in', async () => {
    const t = tablet();
    await t.start();
    t.setPersisted(true);
    expect(t.snapshot.persisted).toBe(true);
    office.signedIn = 'ben';
    await t.sync();
    expect(t.snapshot).toMatchObject({ phase: 'ready', persisted: true, me: { userId: 'ben' } });
  });

  it('full: pictures go all the same, which makes room', async () => {
    const t = tablet();
    await t.start();
    await photo(t, 'sha');
    const put = IDBObjectStore.prototype.put;
    const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...given) {
      if (this.name === 'visits') throw new DOMException('full', 'QuotaExceededError');
      return put.apply(this, given);
    });
    await t.sync();
    expect(t.snapshot).toMatchObject({ line: 'failed', trouble: { code: 'full' } });
    expect(office.whole.has('sha')).toBe(true);
    full.mockRestore();
    await t.sync();
    // The trouble is over; nothing tells to save again what was never lost.
    expect(t.snapshot).toMatchObject({ line: 'idle', photos: [], waiting: 0, trouble: null });
  });

  it('all that one tap says is kept or nothing of it', async () => {
    const t = tablet();
    await t.start();
    const said = ['a', 'b', 'c'].map((what) => ({ kind: 'part.use' as const, payload: { unitId: null, what, quantity: 1 } }));
    const add = IDBObjectStore.prototype.add;
    const first: unknown[] = [];
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, value) {
      first.push(value);
      // The third is refused by the disk, as one that is there already.
      return add.call(this, first.length === 3 ? first[0] : value);
    });
    await expect(t.writeAll('v1', said)).rejects.toThrow();
    vi.restoreAllMocks();
    const again = tablet();
    await again.open();
    expect(again.snapshot.waiting).toBe(0);
    await again.writeAll('v1', said);
    await again.writeAll('v1', []);
    expect(again.snapshot.waiting).toBe(3);
    await again.sync();
    expect(filed()).toEqual(['a', 'b', 'c']);
    expect([...office.filed.values()].map((e) => e.seq)).toEqual([1, 2, 3]);
  });

  it('full while writing: that stands until a writing goes well', async () => {
    const t = tablet();
    await t.start();
    const put = IDBObjectStore.prototype.add;
    const full = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, ...given) {
      if (this.name === 'entries') throw new DOMException('full', 'QuotaExceededError');
      return put.apply(this, given);
    });
    await expect(part(t, 'lost')).rejects.toThrow(/not saved/);
    full.mockRestore();
    await t.sync();
    expect(t.snapshot.trouble?.code).toBe('full');
    await part(t, 'kept');
    expect(t.snapshot.trouble).toBeNull();
  });

  it('cleared by the browser: begun anew instead of opening for ever', async () => {
    await tablet().start();
    globalThis.indexedDB = new IDBFactory();
    const t = tablet();
    await t.start();
    expect(t.snapshot).toMatchObject({ phase: 'ready', me: { userId: 'ana' } });
    await part(t, 'kept');
    await t.sync();
    expect(filed()).toEqual(['kept']);
  });

  it('a clock that once ran ahead is forgiven once nothing waits', async () => {
    const t = tablet();
    await t.start();
    const right = now;
    now += 86_400_000;
    await part(t, 'ahead');
    now = right;
    await t.sync();
    await part(t, 'right again');
    const madeAt = [...t.snapshot.entries.values()].find((k) => k.waiting)?.entry.madeAt ?? '';
    expect(Math.abs(Date.parse(madeAt) - right)).toBeLessThan(60_000);
  });

  it('a clock set back after the round came puts no entry before what the office told', async () => {
    const t = tablet();
    await t.start();
    const refreshedAt = Date.parse(t.snapshot.refreshedAt ?? '');
    now -= 86_400_000;
    await part(t, 'after');
    expect(Date.parse([...t.snapshot.entries.values()][0]?.entry.madeAt ?? '')).toBeGreaterThanOrEqual(refreshedAt);
  });

  it('an entry of an older version that waits is shown, and sent as it was written', async () => {
    const t = tablet();
    await t.start();
    const id = await t.write('v1', 'finding.set', {
      unitId: 'u',
      aspect: 'coil',
      phase: 'found',
      grade: 'matted',
      notLookedWhy: '',
      note: '',
      replaces: null,
    });
    const db = t.database as Database;
    const kept = (await db.get('entries', id)) as KeptEntry;
    const { phase: _, replaces: __, ...old } = kept.entry.payload as Payloads['finding.set'];
    await db.put('entries', { ...kept, entry: { ...kept.entry, version: 1, payload: old } as unknown as Entry });
    await t.reload();
    expect(t.snapshot.visits[0]?.entries.findings[0]).toMatchObject({ id, phase: 'found', grade: 'matted' });
    await t.sync();
    expect(office.filed.get(id)).toMatchObject({ version: 1, payload: old });
  });

  it('names times by the office’s clock', async () => {
    now -= 86_400_000;
    const t = tablet();
    await t.start();
    expect(Math.abs(Date.parse(t.now()) - Date.now())).toBeLessThan(60_000);
  });
});

describe('pictures', () => {
  it.each([1, 7, 40_683, CHUNK_BYTES])('a piece of %d bytes leaves whole', async (length) => {
    const got: number[] = [];
    const line = officeOverHttp('http://office', async (_, init) => {
      got.push((init?.body as Blob).size);
      return Response.json({ have: [], done: true });
    });
    await line.upload('sha', 0, 1, new Uint8Array(length));
    expect(got).toEqual([length]);
  });

  it('many waiting: an entry written meanwhile goes before the rest of them', async () => {
    const t = tablet();
    await t.start();
    for (let n = 0; n < 12; n++) await photo(t, `sha${n}`);
    const { upload } = office.office;
    const order: string[] = [];
    let written: Promise<unknown> | null = null;
    office.office.upload = async (sha256, ...rest) => {
      written ??= part(t, 'urgent').then(() => void t.sync());
      await written;
      order.push(office.filed.size > 12 ? 'after' : 'before');
      return upload(sha256, ...rest);
    };
    await t.sync();
    await vi.waitFor(() => expect(t.snapshot).toMatchObject({ photos: [], waiting: 0, line: 'idle' }));
    expect(order.filter((o) => o === 'before').length).toBeLessThanOrEqual(3);
    expect(order).toHaveLength(12);
  });

  it('all pieces there and yet not whole: the last goes again', async () => {
    const t = tablet();
    await t.start();
    await photo(t, 'sha', CHUNK_BYTES + 5);
    // The office fell after the last piece had come and before it put them together.
    office.pictures.set('sha', new Set([0, 1]));
    await t.sync();
    expect(office.whole.has('sha')).toBe(true);
    expect(t.snapshot.photos).toEqual([]);
  });

  it('one refused waits to be offered again, and is not brought back once it was taken back', async () => {
    const t = tablet();
    await t.start();
    office.refuses.add('bad');
    await photo(t, 'bad');
    await t.sync();
    expect(t.snapshot.photos).toMatchObject([{ problem: 'The picture is damaged.' }]);
    office.refuses.clear();
    await t.tryPicture(t.snapshot.photos[0]?.id ?? '');
    expect(t.snapshot.photos).toEqual([]);

    const id = await photo(t, 'slip');
    vi.spyOn(office.office, 'upload').mockImplementation(async () => {
      await t.write('v1', 'entry.strike', { what: 'photo', entryId: id, why: 'Slip' });
      throw new OfficeError('refused', 'The picture is damaged.');
    });
    await t.sync();
    expect(t.snapshot.photos).toEqual([]);
    expect(await t.database?.getKey('photos', id)).toBeUndefined();
  });

  it('one refused keeps none of the others of a handed-over file back', async () => {
    const t = tablet();
    await t.start();
    await photo(t, 'bad');
    await photo(t, 'good');
    const file = t.database ? await makeHandover(t.database, NAME, now) : expect.fail('no database');
    office.refuses.add('bad');
    expect(await takeIn(office.office, file, () => now)).toMatchObject({ photos: 1, stopped: null });
    expect(office.whole.has('good')).toBe(true);
  });
});
