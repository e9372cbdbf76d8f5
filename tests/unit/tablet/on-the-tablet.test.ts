import 'fake-indexeddb/auto';
import { IDBObjectStore } from 'fake-indexeddb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { CHUNK_BYTES, type RoundReply, type VisitOnFile } from '@/lib/core/tablet';
import { endSession } from '@/lib/tablet/end-session';
import { makeHandover, readHandover, takeIn } from '@/lib/tablet/handover';
import { OfficeError, officeOverHttp } from '@/lib/tablet/office';
import { handTo, holder, people } from '@/lib/tablet/people';
import { entryState } from '@/lib/tablet/snapshot';
import { troubleOf } from '@/lib/tablet/storage-trouble';
import { Tablet } from '@/lib/tablet/tablet';
import { emptyBrowser } from './support/browser';
import { aVisit, OfficeInMemory } from './support/office';

const NAME = { name: 'Tablet', appVersion: 'test' };
let office: OfficeInMemory;
let now: number;
const tablet = () => new Tablet({ office: office.office, clock: () => now, name: NAME });
const part = (t: Tablet, what: string, visitId = 'v1') => t.write(visitId, 'part.use', { unitId: null, what, quantity: 1 });
const offline = () => {
  throw new OfficeError('offline', 'The office cannot be reached.');
};

beforeEach(() => {
  vi.restoreAllMocks();
  emptyBrowser();
  office = new OfficeInMemory();
  office.visits = [aVisit('v1'), aVisit('v2')];
  now = Date.now();
});

describe('a tablet', () => {
  it('that nobody has signed in on says whether to sign in or to find signal', async () => {
    const round = vi.spyOn(office.office, 'round');
    round.mockRejectedValueOnce(new OfficeError('signed_out', 'Sign in again.'));
    const t = tablet();
    await t.start();
    expect(t.snapshot).toMatchObject({ phase: 'sign_in', line: 'signed_out', lineWords: 'Sign in again.', me: null, visits: [] });
    round.mockImplementationOnce(offline);
    await t.sync();
    expect(t.snapshot).toMatchObject({ phase: 'no_round', line: 'offline', lineWords: 'The office cannot be reached.' });
    await t.sync();
    expect(t.snapshot).toMatchObject({ phase: 'ready', line: 'idle', lineWords: '', trouble: null });
    expect([holder(), people()]).toEqual(['ana', [{ userId: 'ana', name: 'ana' }]]);
  });

  it('keeps its round while it has no signal or no sign-in, and says which', async () => {
    const t = tablet();
    await t.start();
    const send = vi.spyOn(office.office, 'send');
    for (const [trouble, line] of [['offline', 'offline'], ['signed_out', 'signed_out'], ['failed', 'failed'], ['refused', 'failed']] as const) {
      await part(t, trouble);
      send.mockRejectedValueOnce(new OfficeError(trouble, `It is ${trouble}.`));
      await t.sync();
      expect(t.snapshot).toMatchObject({ phase: 'ready', line, lineWords: `It is ${trouble}.`, trouble: null });
      expect(t.snapshot.visits.map((v) => v.id)).toEqual(['v1', 'v2']);
      expect(t.snapshot.sendingIds.size).toBe(0);
    }
    expect(t.snapshot.waiting).toBe(4);
    await t.sync();
    expect([t.snapshot.waiting, office.filed.size]).toEqual([0, 4]);
  }); // prettier-ignore

  it('shows how far an entry has come: here, on its way, in the office, and with what answer', async () => {
    const t = tablet();
    await t.start();
    const heard: string[] = [];
    const id = await part(t, 'Belt');
    expect([entryState(t.snapshot, id), t.snapshot.waiting, await t.unsent()]).toEqual(['here', 1, 1]);
    t.subscribe(() => heard.push(entryState(t.snapshot, id)));
    office.answers.set(id, { outcome: 'conflict', note: 'Ask one another.' });
    await t.sync();
    expect(heard).toContain('sending');
    expect([entryState(t.snapshot, id), t.snapshot.entries.get(id)?.note, await t.unsent()]).toEqual(['conflict', 'Ask one another.', 0]);
    await t.markSeen(id);
    expect(t.snapshot.entries.get(id)?.seen).toBe(true);
    expect(entryState(t.snapshot, 'of long ago')).toBe('office');
    // What was answered with a no does not stand on the screen as if it were filed.
    const refused = await part(t, 'Refused');
    office.answers.set(refused, { outcome: 'rejected', note: 'No such unit.' });
    await t.sync();
    expect(entryState(t.snapshot, refused)).toBe('rejected');
    expect(t.snapshot.visits[0]?.entries.parts.map((p) => p.what)).not.toContain('Refused');
  });

  it('lays what was just written over the visit it is about, and over no other', async () => {
    const t = tablet();
    await t.start();
    await part(t, 'Belt', 'v2');
    const parts = () => t.snapshot.visits.map((v) => v.entries.parts.map((p) => p.what));
    expect(parts()).toEqual([[], ['Belt']]);
    // As much after a fall.
    const again = tablet();
    await again.open();
    expect(again.snapshot.visits.map((v) => v.entries.parts.map((p) => p.what))).toEqual([[], ['Belt']]);
    expect(await t.writeAll('v1', [])).toEqual([]);
  });

  it('holds its visits in the order of the day that the office told', async () => {
    office.visits = [aVisit('v2'), aVisit('v1')];
    const t = tablet();
    await t.start();
    expect(t.snapshot.visits.map((v) => v.id)).toEqual(['v2', 'v1']);
    office.visits = [aVisit('v1')];
    await t.sync();
    expect(t.snapshot.visits.map((v) => v.id)).toEqual(['v1']);
  });

  it('keeps a visit that has left the round while something about it waits', async () => {
    const t = tablet();
    await t.start();
    office.visits = [aVisit('v2')];
    await part(t, 'Belt');
    vi.spyOn(office.office, 'send').mockResolvedValueOnce({ results: [], lastSeq: 0, stopped: 'unexpected' });
    await t.sync();
    expect(t.snapshot.lineWords).toBe('The office could not take in the next entry. It is kept here and will be tried again.');
    expect(t.snapshot.visits.map((v) => v.id)).toEqual(['v1', 'v2']);
    await t.sync();
    await t.sync();
    expect(t.snapshot.visits.map((v) => v.id)).toEqual(['v2']);
  });

  it('newer than its office, or at odds with it for good, keeps everything and says what to do', async () => {
    const t = tablet();
    await t.start();
    await part(t, 'Belt');
    const send = vi.spyOn(office.office, 'send');
    send.mockResolvedValueOnce({ results: [], lastSeq: 0, stopped: 'office_older' });
    await t.sync();
    expect(t.snapshot.lineWords).toBe('This tablet is newer than the office. What you write is kept here until the office is updated.');
    send.mockResolvedValue({ results: [], lastSeq: 0, stopped: 'renumber' });
    await t.sync();
    expect(t.snapshot.lineWords).toBe('The office and this tablet do not agree on what was sent. Hand over the export file.');
    expect(await t.unsent()).toBe(1);
    send.mockRestore();
    await t.sync();
    expect(await t.unsent()).toBe(0);
  });

  it('left by its person is nobody’s, and what was written stays theirs', async () => {
    const t = tablet();
    await t.start();
    const id = await part(t, 'Belt');
    await t.leave();
    expect(t.snapshot).toMatchObject({ phase: 'sign_in', me: null, visits: [], waiting: 0 });
    expect([holder(), t.database]).toEqual([null, null]);
    await expect(part(t, 'Nobody’s')).rejects.toMatchObject({ trouble: { code: 'refused' } });
    await t.markSeen(id);
    await t.start();
    expect(office.filed.has(id)).toBe(true);
    await handTo('ana');
    expect(holder()).toBe('ana');
    await handTo('ben');
    expect(holder()).toBeNull();
  });

  it('tells arrivals only where its person allows it, at once and only then', async () => {
    const t = tablet();
    const fix = { visitId: 'v1', lat: 40, lng: -105, accuracyM: 8 };
    await t.arrivedAt(fix);
    await t.start();
    await t.arrivedAt(fix);
    expect(office.arrivalsSent).toEqual([]);
    const round = office.office.round;
    vi.spyOn(office.office, 'round').mockImplementation(async (...args) => {
      const reply: RoundReply = await round(...args);
      return { ...reply, me: { ...reply.me, sharesArrivals: true } };
    });
    await t.allowArrivals(true);
    expect(office.arrivalsSent).toEqual([{ allow: true, fixes: [] }]);
    await t.arrivedAt(fix);
    expect(office.arrivalsSent[1]).toEqual({ fixes: [{ ...fix, id: expect.any(String), at: expect.any(String) }] });
    expect(Math.abs(Date.parse(office.arrivalsSent[1]?.fixes[0]?.at ?? '') - now)).toBeLessThan(5000);
    expect(office.arrivalsSent).toHaveLength(2);
  });
});

describe('pictures on a tablet', () => {
  const photo = (t: Tablet, sha256: string, size: number) => {
    const bytes = Uint8Array.from({ length: size }, (_, i) => i % 251);
    const said = { unitId: null, aspect: null, phase: 'before' as const, sha256, bytes: size, takenAt: t.now() };
    return t.write('v1', 'photo.attach', said, { sha256, mime: 'image/jpeg', bytes: bytes.buffer });
  };
  const held = async (t: Tablet) => (await t.database?.getAllKeys('photos')) ?? [];

  it('go piece by piece: what has arrived is not sent twice, and one of a single piece is not asked about', async () => {
    const t = tablet();
    await t.start();
    const [asked, upload] = [vi.spyOn(office.office, 'uploadState'), vi.spyOn(office.office, 'upload')];
    await photo(t, 'small', 10);
    await t.sync();
    expect([asked.mock.calls.length, upload.mock.calls.length, office.whole.has('small')]).toEqual([0, 1, true]);
    office.pictures.set('large', new Set([1]));
    await photo(t, 'large', 2 * CHUNK_BYTES + 7);
    await t.sync();
    expect(upload.mock.calls.slice(1).map(([, index, pieces, bytes]) => [index, pieces, bytes.length])).toEqual([
      [0, 3, CHUNK_BYTES],
      [2, 3, 7],
    ]);
    expect([...(upload.mock.calls[2]?.[3] ?? [])]).toEqual(Array.from({ length: 7 }, (_, i) => (2 * CHUNK_BYTES + i) % 251));
    expect(office.whole.has('large')).toBe(true);
  });

  it('that the office has make room on a full tablet, and what is written then is kept', async () => {
    const t = tablet();
    await t.start();
    await photo(t, 'there', 10);
    await t.sync();
    expect(await held(t)).toHaveLength(1);
    vi.spyOn(office.office, 'upload').mockRejectedValue(new OfficeError('offline', 'The office cannot be reached.'));
    await photo(t, 'waits', 10);
    const add = IDBObjectStore.prototype.add;
    let full = true;
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, ...given) {
      if (full && this.name === 'entries') {
        full = false;
        throw new DOMException('full', 'QuotaExceededError');
      }
      return add.apply(this, given);
    });
    const id = await part(t, 'Belt');
    expect(entryState(t.snapshot, id)).toBe('here');
    expect(t.snapshot.trouble).toBeNull();
    // The one that only this tablet has stays.
    expect(await held(t)).toEqual(t.snapshot.photos.map((p) => p.id));
    expect(t.snapshot.photos).toHaveLength(1);
  });

  it('give way to an entry that is written meanwhile, and go with the next talk', async () => {
    const t = tablet();
    await t.start();
    for (let i = 0; i < 6; i++) await photo(t, `p${i}`, 10);
    let begun = 0;
    const upload = office.office.upload;
    vi.spyOn(office.office, 'upload').mockImplementation(async (...args) => {
      if (++begun === 1) void part(t, 'Belt').then(() => t.sync());
      await new Promise((resolve) => setTimeout(resolve, 20));
      // Those on their way arrive; what follows waits until the entry is in the office.
      if (begun > 3) expect([...office.filed.values()].some((e) => e.kind === 'part.use')).toBe(true);
      return upload(...args);
    });
    await t.sync();
    await t.sync();
    expect(office.whole.size).toBe(6);
  });

  it('of earlier visits are fetched for looking at without signal, and go when no visit shows them', async () => {
    const thumb = (fileId: string) => ({ fileId, takenAt: '2026-11-01T10:00:00.000Z', aspect: null, phase: 'before' as const });
    const showing = (...files: string[]): VisitOnFile => ({
      ...aVisit('v1'),
      units: [{ thumbs: files.map(thumb) } as VisitOnFile['units'][number]],
    });
    office.visits = [showing('f1', 'gone', 'f2')];
    const fetched = vi.spyOn(office.office, 'thumb').mockImplementation((fileId) => {
      if (fileId === 'gone') throw new OfficeError('failed', 'No such picture.');
      return Promise.resolve({ bytes: new ArrayBuffer(3), mime: 'image/webp' });
    });
    const t = tablet();
    await t.start();
    const kept = async () => (await t.database?.getAllKeys('thumbs')) ?? [];
    expect(await kept()).toEqual(['f1', 'f2']);
    expect(await t.database?.get('thumbs', 'f1')).toMatchObject({ mime: 'image/webp' });
    office.visits = [showing('f2')];
    await t.sync();
    expect(await kept()).toEqual(['f2']);
    expect(fetched.mock.calls.filter(([id]) => id === 'f2')).toHaveLength(1);
    office.visits = [showing('f3', 'f4')];
    fetched.mockClear().mockImplementation(offline);
    await t.sync();
    expect([fetched.mock.calls.length, t.snapshot.line]).toEqual([1, 'offline']);
  });
});

describe('unsent work as a file', () => {
  it('holds entries and pictures as they were, and goes in under their writer’s name, once', async () => {
    const t = tablet();
    await t.start();
    await part(t, 'Belt');
    const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => i % 251);
    const takenAt = t.now();
    await t.write(
      'v1',
      'photo.attach',
      { unitId: null, aspect: null, phase: 'before', sha256: 'abc', bytes: bytes.length, takenAt },
      { sha256: 'abc', mime: 'image/jpeg', bytes: bytes.buffer },
    );
    if (!t.database) throw new Error('no database');
    const file = await makeHandover(t.database, NAME, now);
    expect(file).toMatchObject({ version: 2, device: { ...NAME, holder: 'ana' }, madeAt: new Date(now).toISOString() });
    expect(file.entries.map((e) => e.kind)).toEqual(['part.use', 'photo.attach']);
    const read = readHandover(JSON.stringify(file));
    expect(read).toEqual(file);
    if (!read) throw new Error('not read');
    const upload = vi.spyOn(office.office, 'upload');
    office.signedIn = 'desk';
    expect(await takeIn(office.office, read, () => now)).toMatchObject({ photos: 1, stopped: null, results: [{ outcome: 'applied' }, {}] });
    expect(upload.mock.calls.map(([, , , b]) => [...b.slice(0, 5)])).toEqual([[0, 1, 2, 3, 4]]);
    expect(upload.mock.calls[0]?.[3]).toHaveLength(bytes.length);
    expect([...office.filed.values()].map((e) => e.userId)).toEqual(['ana', 'ana']);
    expect(await takeIn(office.office, read, () => now)).toMatchObject({ stopped: null });
    expect(office.filed.size).toBe(2);
  });

  it('of the first version is read as well, and what is none of ours is not', async () => {
    const file = { format: 'rimebook-handover', device: { id: 'd', holder: 'ana', ...NAME }, madeAt: '2026-11-25T15:00:00Z', photos: [] };
    const entries = [{ id: 'e1', seq: 1 }];
    expect(readHandover(JSON.stringify({ ...file, version: 1, operations: entries }))).toMatchObject({ version: 2, entries });
    for (const wrong of [
      { ...file, version: 3, entries },
      { ...file, version: 2 },
      { ...file, version: 2, entries, format: 'other' },
      { ...file, version: 2, entries, device: undefined },
      { ...file, version: 2, entries, madeAt: '' },
      { ...file, version: 2, entries, photos: {} },
    ])
      expect(readHandover(JSON.stringify(wrong))).toBeNull();
    for (const text of ['', '{', '[]', '12']) expect(readHandover(text)).toBeNull();
  });

  it('stops where the office does not follow on, and tells why; a lost line is no refusal of a picture', async () => {
    const t = tablet();
    await t.start();
    for (let i = 0; i < 70; i++) await part(t, `p${i}`);
    if (!t.database) throw new Error('no database');
    const file = await makeHandover(t.database, NAME, now);
    const send = vi.spyOn(office.office, 'send');
    expect((await takeIn(office.office, file, () => now)).results).toHaveLength(70);
    expect(send).toHaveBeenCalledTimes(2);
    send.mockResolvedValueOnce({ results: [], lastSeq: 0, stopped: 'gap' });
    expect(await takeIn(office.office, file, () => now)).toEqual({ results: [], photos: 0, stopped: 'gap' });
    const photos = [{ id: 'p', sha256: 'x', mime: 'image/jpeg', bytes: 'AAAA' }];
    vi.spyOn(office.office, 'upload').mockImplementation(offline);
    await expect(takeIn(office.office, { ...file, entries: [], photos }, () => now)).rejects.toMatchObject({ trouble: 'offline' });
  });
});

describe('the office over HTTP', () => {
  const answering = (status: number, body: unknown = {}) => vi.fn<typeof fetch>(() => Promise.resolve(Response.json(body, { status })));
  const send = (via: typeof fetch) => officeOverHttp('http://office', via).send({ id: 'd', holder: 'ana', ...NAME }, 'now', []);
  const said = (code: string, message?: string) => ({ error: { code, message } });

  it.each([
    [401, {}, 'signed_out', /Your sign-in has run out\. .* everything on this tablet is kept/],
    [403, said('not_allowed', 'Written by someone else.'), 'not_allowed', /^Written by someone else\.$/],
    [403, said('not_allowed'), 'not_allowed', /does not take this from this sign-in/],
    // A filter on the way forbids in no words of the office.
    [403, {}, 'failed', /answered with an error\. It will be tried again/],
    [400, said('invalid', 'Too long.'), 'refused', /^Too long\.$/],
    [413, {}, 'refused', /could not read it/],
    [415, {}, 'refused', /could not read it/],
    [404, {}, 'failed', /tried again/],
    [500, said('unexpected', 'The database is away.'), 'failed', /^The database is away\.$/],
  ])('says what %i with %j means', async (status, body, trouble, text) => {
    await expect(send(answering(status, body))).rejects.toMatchObject({ trouble, text: expect.stringMatching(text) });
  });

  it('is offline where nothing answers, or only half an answer comes', async () => {
    await expect(send(() => Promise.reject(new TypeError('network')))).rejects.toMatchObject({ trouble: 'offline' });
    await expect(send(() => Promise.resolve(new Response('{"results":[')))).rejects.toMatchObject({
      trouble: 'offline',
      text: 'The office’s answer did not arrive whole.',
    });
  });

  it('is asked at its own addresses, with who the tablet is and whose work it holds', async () => {
    const via = answering(200, { have: [], done: true });
    const http = officeOverHttp('http://office', via);
    const asked = (n: number) => {
      const [address, init] = via.mock.calls[n] ?? [];
      return { address: new URL(String(address)), init };
    };
    await http.round({ id: 'd', holder: 'ana', ...NAME }, 'c1');
    await http.round({ id: 'd', ...NAME }, '');
    await http.uploadState('abc', 2);
    await http.upload('abc', 1, 2, new Uint8Array(3));
    await http.arrivals({ fixes: [] });
    await http.thumb('f1');
    expect(Object.fromEntries(asked(0).address.searchParams)).toEqual({
      device: 'd',
      holder: 'ana',
      name: 'Tablet',
      app: 'test',
      cursor: 'c1',
    });
    expect(asked(1).address.searchParams.has('holder')).toBe(false);
    expect([asked(2).address.search, asked(3).address.search]).toEqual(['?sha256=abc&pieces=2', '?sha256=abc&index=1&pieces=2']);
    expect([asked(3).init?.method, asked(4).init?.method, asked(4).address.pathname]).toEqual(['PUT', 'POST', '/api/arrivals']);
    expect(asked(5).address.pathname + asked(5).address.search).toBe('/api/files/f1?size=thumb');
    expect(asked(0).init).toMatchObject({ credentials: 'same-origin', cache: 'no-store', redirect: 'error' });
  });

  it('is sent the entries themselves, and given time by how much goes out', async () => {
    const patience = vi.spyOn(AbortSignal, 'timeout');
    const via = answering(200, { results: [], lastSeq: 0, stopped: null });
    const t = tablet();
    await t.start();
    await part(t, 'Belt');
    const entries = [...t.snapshot.entries.values()];
    await officeOverHttp('http://office', via).send({ id: 'd', holder: 'ana', ...NAME }, 'then', entries);
    const { body, method } = via.mock.calls[0]?.[1] ?? {};
    if (!(body instanceof Blob)) throw new Error('nothing was sent');
    expect([method, JSON.parse(await body.text())]).toEqual([
      'POST',
      { device: { id: 'd', holder: 'ana', ...NAME }, sentAt: 'then', entries: entries.map((k) => k.entry) },
    ]);
    // 32 kbit/s is the slowest line that still counts as one: a megabyte has four minutes more than a few words.
    await officeOverHttp('http://office', via).upload('abc', 0, 1, new Uint8Array(1_000_000));
    const [words = 0, megabyte = 0] = patience.mock.calls.slice(-2).map(([ms]) => ms);
    expect(words).toBeGreaterThanOrEqual(30_000);
    expect(megabyte - words).toBeGreaterThan(240_000);
  });

  it('signs out with its own token, and says where it could not', async () => {
    const via = vi.fn<typeof fetch>(() => Promise.resolve(Response.json({ csrfToken: 'tok' })));
    vi.stubGlobal('fetch', via);
    expect(await endSession()).toBe(true);
    expect(String(via.mock.calls[1]?.[1]?.body)).toBe('csrfToken=tok&json=true');
    expect(via.mock.calls.map(([address]) => address)).toEqual(['/api/auth/csrf', '/api/auth/signout']);
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('network')));
    expect(await endSession()).toBe(false);
    vi.unstubAllGlobals();
  });
});

describe('trouble with the tablet’s own storage', () => {
  const named = (name: string) => Object.assign(new Error(name), { name });
  it.each([
    ['QuotaExceededError', 'write', 'full', /the entry was not saved/],
    ['QuotaExceededError', 'talk', 'full', /what the office sent could not be kept/],
    ['SecurityError', 'write', 'refused', /private window/],
    ['InvalidStateError', 'write', 'refused', /private window/],
    ['UnknownError', 'open', 'refused', /private window/],
    ['UnknownError', 'write', 'failed', /could not save the entry/],
    ['UnknownError', 'talk', 'failed', /could not keep what the office sent/],
  ] as const)('%s in %s is told as %s', (name, during, code, message) => {
    expect(troubleOf(named(name), during)).toEqual({ code, message: expect.stringMatching(message) });
  });
});
