import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { CHUNK_BYTES } from '@/lib/core/tablet';
import { reEncoded } from '@/lib/features/files/verbs/re-encode';
import { readPicture } from '@/lib/features/files/verbs/read-picture';
import { takePiece, uploadState } from '@/lib/features/files/verbs/upload';
import { wholePicture } from '@/lib/features/files/verbs/whole-picture';
import { haveOneUnit, personRow, visitRow } from '@/tests/support/factories';
import { useDatabase } from '@/tests/support/database';
import { havePicture, picturesIn } from '@/tests/support/pictures';

const database = useDatabase();
const NOW = new Date('2026-03-03T18:00:00Z');
const DAY = 86_400_000;
const sha = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const flat = (width: number, height: number, background: string | { r: number; g: number; b: number; alpha: number } = '#87684a') =>
  sharp({ create: { width, height, channels: typeof background === 'string' ? 3 : 4, background } });
const person = async (over = {}) => (await database.db.user.create({ data: personRow(over) })).id;
const ctx = (userId: string, now = NOW) => ({ db: database.db, actor: { userId }, now, pictures: picturesIn(database.db) });
const pieces = () => database.db.uploadChunk.findMany({ orderBy: [{ sha256: 'asc' }, { index: 'asc' }] });

describe('a piece of a picture', () => {
  it('too large is refused for good; one cut short, or empty, is asked for again, the last may be as short as it is', async () => {
    const me = ctx(await person());
    const whole = new Uint8Array(CHUNK_BYTES * 2 + 5);
    const asked = { sha256: sha(whole), pieces: 3 };
    const take = (index: number, bytes: number) => takePiece(me, { ...asked, index }, new Uint8Array(bytes));
    await expect(take(0, CHUNK_BYTES + 1)).rejects.toMatchObject({ code: 'invalid', message: 'A piece of the picture is too large.' });
    const short = { code: 'conflict', message: 'A piece of the picture was cut short. Send it again.' };
    await expect(take(0, CHUNK_BYTES - 1)).rejects.toMatchObject(short);
    await expect(take(1, 0)).rejects.toMatchObject(short);
    await expect(take(2, 0)).rejects.toMatchObject(short);
    expect(await pieces()).toEqual([]);
    expect(await take(2, 5)).toEqual({ have: [2], done: false });
    expect(await take(0, CHUNK_BYTES)).toEqual({ have: [0, 2], done: false });
    // Together they are no picture; nothing of it is left to lie about.
    await expect(take(1, CHUNK_BYTES)).rejects.toMatchObject({ code: 'invalid' });
    expect(await pieces()).toEqual([]);
  });

  it('is its sender’s own: another’s of the same picture counts for neither, nor one cut otherwise', async () => {
    const [one, two] = [ctx(await person()), ctx(await person())];
    const asked = { sha256: sha(Buffer.from('shared')), pieces: 3 };
    await takePiece(one, { ...asked, index: 0 }, new Uint8Array(CHUNK_BYTES));
    expect(await uploadState(two, asked)).toEqual({ have: [], done: false });
    expect(await uploadState(one, { ...asked, pieces: 4 })).toEqual({ have: [], done: false });
    expect(await uploadState(one, asked)).toEqual({ have: [0], done: false });
    await database.db.uploadChunk.deleteMany();
  });

  it('that arrives damaged is said so, and what lay about for a fortnight goes with it, nothing younger', async () => {
    const [me, other] = [await person(), await person()];
    const leave = (name: string, at: Date) =>
      takePiece(ctx(other, at), { sha256: sha(Buffer.from(name)), pieces: 3, index: 0 }, new Uint8Array(CHUNK_BYTES));
    await leave('old', new Date(NOW.getTime() - 14 * DAY - 1000));
    await leave('young', new Date(NOW.getTime() - 14 * DAY + 1000));
    await expect(takePiece(ctx(me), { sha256: sha(Buffer.from('mine')), pieces: 1, index: 0 }, new Uint8Array(10))).rejects.toMatchObject({
      ...{ code: 'conflict', message: 'The picture arrived damaged. It will be sent again.' },
    });
    expect((await pieces()).map((p) => p.sha256)).toEqual([sha(Buffer.from('young'))]);
    await database.db.uploadChunk.deleteMany();
  });

  it('of many begun, the one begun first is given up once there is no more room, never that which is being sent', async () => {
    const me = await person();
    const picture = (n: number) => sha(Buffer.from(`picture ${n}`));
    const at = (n: number) => new Date(NOW.getTime() + n * 1000);
    // Twenty megabytes are all there is room for.
    await database.db.uploadChunk.createMany({
      data: [0, 1, 2, 3].map((n) => ({ sha256: picture(n), userId: me, index: 0, total: 9, at: at(n), bytes: new Uint8Array(5_000_000) })),
    });
    const left = async () => new Set((await pieces()).map((p) => p.sha256));
    // The first of all goes on: it is the second that has to go.
    await takePiece(ctx(me, at(9)), { sha256: picture(0), pieces: 9, index: 1 }, new Uint8Array(CHUNK_BYTES));
    expect(await left()).toEqual(new Set([0, 2, 3].map(picture)));
    // One that is larger than all the room there is keeps its own pieces, or it would never be whole.
    await database.db.uploadChunk.deleteMany();
    const large = { sha256: picture(5), userId: me, index: 0, total: 99, at: NOW, bytes: new Uint8Array(20_000_001) };
    await database.db.uploadChunk.create({ data: large });
    expect(await takePiece(ctx(me), { sha256: picture(5), pieces: 99, index: 1 }, new Uint8Array(CHUNK_BYTES))).toMatchObject({
      have: [0, 1],
    });
    await database.db.uploadChunk.deleteMany();
  });
});

describe('a picture that is here already', () => {
  it('is said to be, whoever sends a piece of it, and no piece is kept', async () => {
    const { sha256 } = await havePicture(database.db, new Uint8Array(500).fill(4));
    const me = ctx(await person());
    expect(await takePiece(me, { sha256, pieces: 3, index: 0 }, new Uint8Array(CHUNK_BYTES))).toEqual({ have: [], done: true });
    expect(await uploadState(me, { sha256, pieces: 3 })).toEqual({ have: [], done: true });
    expect(await pieces()).toEqual([]);
  });
});

describe('a picture made anew', () => {
  it('is at most two thousand along its longer side and never made larger; small, it is cut to a card', async () => {
    const large = await reEncoded(await flat(3000, 1500).jpeg().toBuffer());
    expect([large.width, large.height, large.mime]).toEqual([2000, 1000, 'image/jpeg']);
    const tall = await reEncoded(await flat(900, 3000).jpeg().toBuffer());
    expect([tall.width, tall.height]).toEqual([600, 2000]);
    const small = await reEncoded(await flat(50, 40).jpeg().toBuffer());
    expect([small.width, small.height]).toEqual([50, 40]);
    for (const p of [large, tall, small]) {
      expect(await sharp(p.bytes).metadata()).toMatchObject({ format: 'jpeg', width: p.width, height: p.height });
      expect(await sharp(p.thumbnail).metadata()).toMatchObject({ format: 'jpeg', width: 320, height: 240 });
    }
  });

  it('of any kind that cameras and screens make is taken; what lets light through stands on white', async () => {
    const clear = { r: 0, g: 0, b: 0, alpha: 0 };
    for (const sent of [await flat(40, 30, clear).png().toBuffer(), await flat(40, 30, clear).webp().toBuffer()]) {
      const { bytes } = await reEncoded(sent);
      const { data } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
      expect(Math.min(...data)).toBeGreaterThan(250);
    }
    const brown = await sharp((await reEncoded(await flat(40, 30).webp().toBuffer())).bytes).stats();
    expect(brown.channels[0]?.mean).toBeCloseTo(0x87, -1);
  });

  it('says in words why it is refused', async () => {
    const gif = await flat(9, 9).gif().toBuffer();
    await expect(reEncoded(gif)).rejects.toMatchObject({ code: 'invalid', message: 'That is not a JPEG, PNG or WebP picture.' });
    await expect(reEncoded(Buffer.from('no picture'))).rejects.toMatchObject({
      ...{ code: 'invalid', message: 'The picture is damaged or is no picture.' },
    });
  });
});

describe('whoever asks for a picture', () => {
  it('sees it who has, had or was given its visit, or another in that kitchen; the small one is another than the whole', async () => {
    const { db } = database;
    const have = await haveOneUnit(db);
    const bytes = new Uint8Array(1000).fill(9);
    const file = await havePicture(db, bytes, { thumbnail: new Uint8Array([1, 2, 3]) });
    const visit = await db.visit.create({ data: visitRow(have.kitchen.id, have.person.id, NOW, 60) });
    await db.photo.create({ data: { id: crypto.randomUUID(), visitId: visit.id, takenAt: NOW, sha256: file.sha256, fileId: file.id } });
    const [before, given, stranger] = [await person(), await person(), await person()];
    await db.visit.create({ data: visitRow(have.kitchen.id, before, new Date(NOW.getTime() - 300 * DAY), 60) });
    const device = await db.device.create({ data: { id: crypto.randomUUID(), userId: given, name: 'Tablet', appVersion: 'x' } });
    await db.deviceVisit.create({ data: { deviceId: device.id, visitId: visit.id, givenAt: NOW } });
    const elsewhere = await haveOneUnit(db);
    await db.visit.create({ data: visitRow(elsewhere.kitchen.id, stranger, NOW, 60) });
    const as = (userId: string) => ({
      db,
      pictures: picturesIn(db),
      actor: { userId, role: 'technician' as const, name: '', sessionId: '' },
    });
    for (const userId of [have.person.id, before, given]) {
      const full = await readPicture(as(userId), file.id, 'full');
      expect([full.mime, Buffer.from(full.bytes).equals(bytes)]).toEqual(['image/jpeg', true]);
      expect([...(await readPicture(as(userId), file.id, 'thumb')).bytes]).toEqual([1, 2, 3]);
    }
    const none = { code: 'not_found', message: 'That picture is not on file.' };
    await expect(readPicture(as(stranger), file.id, 'full')).rejects.toMatchObject(none);
    await expect(readPicture(as(have.person.id), have.unit.id, 'full')).rejects.toMatchObject(none);
    await expect(wholePicture(picturesIn(db), 'a'.repeat(64))).rejects.toMatchObject(none);
  });
});
