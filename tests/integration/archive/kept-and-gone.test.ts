import { readFileSync } from 'node:fs';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { archives } from '@/lib/features/archive/reads/archives';
import { archiveProgress, fetchArchive } from '@/lib/features/archive/verbs/fetch-archive';
import { makeArchive } from '@/lib/features/archive/verbs/make-archive';
import { startArchive } from '@/lib/features/archive/verbs/start-archive';
import type { Pictures } from '@/lib/database/pictures/picture-store.mjs';
import { havePicture, picturesIn } from '@/tests/support/pictures';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';

const database = useDatabase();
const schema = readFileSync('prisma/schema.prisma', 'utf8');
const NOW = new Date('2026-11-27T12:00:00Z');
const DAY = 86_400_000;
const MEGABYTE = 1024 * 1024;
let userId: string;
const ctx = (now = NOW) => ({ db: database.db, actor: { userId }, now });
const make = (now = NOW, pictures: Pictures = picturesIn(database.db)) =>
  makeArchive({ db: database.db, now, pictures }, database.url, schema);
const run = (id: string) => database.db.archiveRun.findUniqueOrThrow({ where: { id } });
const gone = { code: 'not_found', message: 'That archive is not here any more. Make a new one.' };
async function fetched(id: string): Promise<Buffer> {
  const parts: Uint8Array[] = [];
  for await (const piece of (await fetchArchive(ctx(), id)).pieces) parts.push(piece);
  return Buffer.concat(parts);
}

/** One as if it had been made, in pieces of two bytes. */
async function standing(pieces: number): Promise<string> {
  const { id } = await database.db.archiveRun.create({
    data: { createdById: userId, createdAt: NOW, status: 'done', pieces, bytes: 2 * pieces, expiresAt: new Date(NOW.getTime() + DAY) },
  });
  for (let index = 0; index < pieces; index++)
    await database.db.archivePiece.create({ data: { runId: id, index, bytes: new Uint8Array([index, 9]) } });
  return id;
}

beforeAll(async () => {
  userId = (await haveOneUnit(database.db, { person: { role: 'owner' } })).person.id;
  // Pictures are not packed: some megabytes of noise come in several pieces.
  for (let n = 0; n < 3; n++) await havePicture(database.db, crypto.getRandomValues(new Uint8Array(65_536)).slice().fill(n, 0, 10));
});
beforeEach(async () => {
  await database.db.archiveRun.deleteMany();
});

describe('an archive', () => {
  it('is asked for by somebody, one at a time, and what was asked and fetched is written down', async () => {
    const { db } = database;
    const id = await startArchive(ctx());
    expect(await run(id)).toMatchObject({ status: 'queued', createdById: userId, createdAt: NOW, tries: 0 });
    await expect(startArchive(ctx())).rejects.toMatchObject({ code: 'conflict', message: 'One is being made already.' });
    await expect(fetchArchive(ctx(), id)).rejects.toMatchObject(gone);
    const made = await standing(3);
    expect([...(await fetched(made))]).toEqual([0, 9, 1, 9, 2, 9]);
    const notes = await db.auditEntry.findMany({ where: { entityId: { in: [id, made] } } });
    expect(notes.map((n) => [n.action, n.entity, n.entityId, n.userId]).sort()).toEqual([
      ['archive.asked', 'ArchiveRun', id, userId],
      ['archive.fetched', 'ArchiveRun', made, userId],
    ]);
    // Once it is over, the next may be asked for.
    await db.archiveRun.update({ where: { id }, data: { status: 'failed' } });
    await startArchive(ctx());
  });

  it('lies in pieces whose bytes are what is told, for three days, and then is gone', async () => {
    const { db } = database;
    await havePicture(db, new Uint8Array(5 * MEGABYTE).fill(7));
    const id = await startArchive(ctx());
    await make();
    const made = await run(id);
    expect(made).toMatchObject({ status: 'done', error: '', expiresAt: new Date(NOW.getTime() + 3 * DAY), doneRows: made.rows });
    expect(made.rows).toBeGreaterThan(10);
    const pieces = await db.archivePiece.findMany({ where: { runId: id }, orderBy: { index: 'asc' } });
    expect(pieces.map((p) => p.index)).toEqual(Array.from({ length: made.pieces }, (_, i) => i));
    expect(made.pieces).toBeGreaterThan(2);
    // Each but the last is as large as a piece should be, give or take what came in one go.
    for (const p of pieces.slice(0, -1)) expect(p.bytes.length).toBeGreaterThanOrEqual(2 * MEGABYTE);
    for (const p of pieces) expect(p.bytes.length).toBeLessThan(3 * MEGABYTE);
    const whole = await fetched(id);
    expect(BigInt(whole.length)).toBe(made.bytes);
    expect([...whole.subarray(0, 2)]).toEqual([0x50, 0x4b]);
    const { bytes, madeAt } = await fetchArchive(ctx(), id);
    expect([bytes, madeAt]).toEqual([whole.length, NOW]);
    await expect(fetchArchive(ctx(new Date(NOW.getTime() + 3 * DAY)), id)).rejects.toMatchObject(gone);
    await make(new Date(NOW.getTime() + 3 * DAY + 1));
    expect([await db.archiveRun.count(), await db.archivePiece.count()]).toEqual([0, 0]);
  });

  it('that lost a piece in a crash is told to be gone; one that loses it on the way ends short, and says so', async () => {
    const { db } = database;
    const id = await standing(2);
    const { pieces } = await fetchArchive(ctx(), id);
    await db.archivePiece.deleteMany({ where: { runId: id } });
    await expect(pieces.next()).rejects.toThrow('a piece of the archive is gone');
    expect(await archives(db, NOW)).toMatchObject([{ id, status: 'done', gone: true }]);
    await expect(fetchArchive(ctx(), id)).rejects.toMatchObject(gone);
    for (const no of ['', 'x', userId]) await expect(fetchArchive(ctx(), no)).rejects.toMatchObject(gone);
  });

  it('is listed with the last four before it, newest first, until it has expired', async () => {
    const { db } = database;
    const at = (days: number) => new Date(NOW.getTime() - days * DAY);
    const row = (days: number, expiresAt: Date | null) => ({
      createdById: userId,
      createdAt: at(days),
      status: 'failed' as const,
      expiresAt,
    });
    await db.archiveRun.createMany({ data: [3, 1, 6, 2, 5, 4].map((days) => row(days, null)) });
    await db.archiveRun.createMany({ data: [row(0, NOW), row(0.5, at(0.1))] });
    const listed = await archives(db, NOW);
    expect(listed.map((a) => a.createdAt)).toEqual([1, 2, 3, 4, 5].map(at));
    expect(listed[0]).toMatchObject({ gone: false, bytes: 0, createdById: userId });
  });

  it('says how far it is, and of one that is not on file that it is not', async () => {
    const id = await startArchive(ctx());
    expect(await archiveProgress(database.db, id)).toEqual({ status: 'queued', rows: 0, doneRows: 0 });
    for (const no of ['x', userId])
      await expect(archiveProgress(database.db, no)).rejects.toMatchObject({ code: 'not_found', message: 'That archive is not on file.' });
  });
});

describe('the making', () => {
  it('that fails leaves nothing half made, says so in plain words, and lets the next be asked for', async () => {
    const { db } = database;
    const id = await startArchive(ctx());
    const away = { ...picturesIn(db), get: () => Promise.reject(new Error('the store is away')) };
    await db.storedFile.create({
      data: { sha256: 'b'.repeat(64), mime: 'image/jpeg', width: 1, height: 1, content: 'c'.repeat(64), thumbnail: new Uint8Array([1]) },
    });
    await expect(make(NOW, away)).rejects.toThrow('the store is away');
    expect(await run(id)).toMatchObject({
      status: 'failed',
      error: 'It could not be made. Nothing was changed; try again, and tell whoever keeps the server.',
      finishedAt: expect.any(Date),
    });
    expect(await db.archivePiece.count()).toBe(0);
    await expect(make(NOW, { ...away, get: () => Promise.resolve(null) })).resolves.toBeUndefined();
    const second = await startArchive(ctx());
    await expect(make(NOW, { ...away, get: () => Promise.resolve(null) })).rejects.toThrow(`The picture ${'c'.repeat(64)} is in no store.`);
    expect((await run(second)).status).toBe('failed');
    await db.storedFile.deleteMany({ where: { content: 'c'.repeat(64) } });
  });

  it('that a process died over is taken up anew, twice; one that still says that it lives is left alone', async () => {
    const id = await startArchive(ctx());
    const claim = crypto.randomUUID();
    const claimed = (beatAt: Date, tries: number) =>
      database.db.archiveRun.update({ where: { id }, data: { status: 'running', claim, beatAt, tries, doneRows: 5 } });
    await claimed(new Date(), 1);
    await make();
    expect(await run(id)).toMatchObject({ status: 'running', claim, doneRows: 5 });
    await claimed(new Date(Date.now() - 45_000), 1);
    await make();
    expect((await run(id)).status).toBe('running');
    await claimed(new Date(Date.now() - 61_000), 2);
    await make();
    expect(await run(id)).toMatchObject({ status: 'done', tries: 3, error: '' });
    await claimed(new Date(Date.now() - 61_000), 3);
    await make();
    expect(await run(id)).toMatchObject({ status: 'failed', claim: null, error: 'It was cut short three times.' });
  });

  it('with nothing to be made does nothing', async () => {
    await make();
    expect(await database.db.archiveRun.count()).toBe(0);
  });

  it('stops where another process has taken the run over, and leaves that one’s work alone', async () => {
    const { db } = database;
    const id = await startArchive(ctx());
    const theirs = crypto.randomUUID();
    await db.storedFile.create({
      data: { sha256: 'd'.repeat(64), mime: 'image/jpeg', width: 1, height: 1, content: 'e'.repeat(64), thumbnail: new Uint8Array([1]) },
    });
    const takenOver = {
      ...picturesIn(db),
      get: async () => {
        await db.archiveRun.update({ where: { id }, data: { claim: theirs, beatAt: new Date() } });
        return new Uint8Array(3 * MEGABYTE);
      },
    };
    await make(NOW, takenOver);
    expect(await run(id)).toMatchObject({ status: 'running', claim: theirs, error: '' });
    await db.storedFile.deleteMany({ where: { content: 'e'.repeat(64) } });
  });
});
