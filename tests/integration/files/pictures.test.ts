import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { CHUNK_BYTES } from '@/lib/core/tablet';
import { reEncoded } from '@/lib/features/files/verbs/re-encode';
import { readPicture } from '@/lib/features/files/verbs/read-picture';
import { takePiece, uploadState } from '@/lib/features/files/verbs/upload';
import { haveOneUnit, personRow, visitRow } from '@/tests/support/factories';
import { useDatabase } from '@/tests/support/database';
import { picturesIn } from '@/tests/support/pictures';

const database = useDatabase();
const NOW = new Date('2026-03-03T18:00:00Z');
const sha = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

/** A camera's picture: a place and a maker in it, and something hidden behind its end. */
async function fromCamera(width = 320): Promise<Buffer> {
  const picture = await sharp({
    create: { width, height: 240, channels: 3, background: '#87684a', noise: { type: 'gaussian', mean: 128, sigma: 30 } },
  })
    .jpeg({ quality: 95 })
    .withMetadata({ orientation: 6 })
    .withExifMerge({ IFD0: { Make: 'Someone' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '39/1 44/1 30/1' } })
    .toBuffer();
  return Buffer.concat([picture, Buffer.from(`hidden ${crypto.randomUUID()}`)]);
}

async function onVisit(bytes: Uint8Array) {
  const have = await haveOneUnit(database.db);
  const visit = await database.db.visit.create({ data: visitRow(have.kitchen.id, have.person.id, NOW, 60) });
  await database.db.photo.create({
    data: { id: crypto.randomUUID(), visitId: visit.id, unitId: have.unit.id, takenAt: NOW, sha256: sha(bytes) },
  });
  return { ...have, ctx: { db: database.db, actor: { userId: have.person.id }, now: NOW, pictures: picturesIn(database.db) } };
}

const send = async (ctx: Parameters<typeof takePiece>[0], bytes: Uint8Array, order?: number[]) => {
  const pieces = Math.max(1, Math.ceil(bytes.byteLength / CHUNK_BYTES));
  let state = await uploadState(ctx, { sha256: sha(bytes), pieces });
  for (const index of order ?? Array.from({ length: pieces }, (_, i) => i))
    state = await takePiece(ctx, { sha256: sha(bytes), pieces, index }, bytes.subarray(index * CHUNK_BYTES, (index + 1) * CHUNK_BYTES));
  return state;
};

describe('a picture sent in', () => {
  it('is made anew: neither place nor maker nor what was hidden after its end is left', async () => {
    const sent = await fromCamera();
    const { ctx } = await onVisit(sent);
    expect(await send(ctx, sent)).toEqual({ have: [], done: true });
    const file = await database.db.storedFile.findUniqueOrThrow({ where: { sha256: sha(sent) }, include: { photos: true } });
    expect(file.photos).toHaveLength(1);
    expect((await sharp(sent).metadata()).exif).toBeDefined();
    const kept = await picturesIn(database.db).get(file.content);
    for (const bytes of [kept ?? new Uint8Array(), file.thumbnail]) {
      const { format, exif, icc, xmp } = await sharp(bytes).metadata();
      expect({ format, exif, icc, xmp }).toEqual({ format: 'jpeg', exif: undefined, icc: undefined, xmp: undefined });
      expect(Buffer.from(bytes).includes('hidden')).toBe(false);
    }
    // Lying on its side, said the camera: it is stood up before that is forgotten.
    expect([file.width, file.height]).toEqual([240, 320]);
  });

  it('comes in pieces, in any order and twice, and goes on where it stopped', async () => {
    const sent = await fromCamera(3600);
    const pieces = Math.ceil(sent.byteLength / CHUNK_BYTES);
    expect(pieces).toBeGreaterThan(2);
    const { ctx } = await onVisit(sent);
    const backwards = Array.from({ length: pieces }, (_, i) => pieces - 1 - i);
    expect(await send(ctx, sent, backwards.slice(0, -1))).toMatchObject({ done: false });
    expect(await uploadState(ctx, { sha256: sha(sent), pieces })).toEqual({ have: backwards.slice(0, -1).reverse(), done: false });
    expect(await send(ctx, sent, [1, 0])).toEqual({ have: [], done: true });
    expect(await send(ctx, sent)).toEqual({ have: [], done: true });
    expect(await database.db.storedFile.count({ where: { sha256: sha(sent) } })).toBe(1);
    expect(await database.db.uploadChunk.count()).toBe(0);
  });

  it('is refused when it is not what it says, and leaves no pieces behind', async () => {
    const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>alert(1)</script></svg>');
    const gif = await sharp({ create: { width: 9, height: 9, channels: 3, background: '#000' } })
      .gif()
      .toBuffer();
    const cut = (await fromCamera()).subarray(0, 4000);
    for (const bytes of [svg, gif, cut, Buffer.from('<html>not a picture</html>'), Buffer.alloc(4096, 7)]) {
      const { ctx } = await onVisit(bytes);
      await expect(send(ctx, bytes)).rejects.toMatchObject({ code: 'invalid' });
      expect(await database.db.storedFile.count({ where: { sha256: sha(bytes) } })).toBe(0);
    }
    expect(await database.db.uploadChunk.count()).toBe(0);
  });

  it('that arrives damaged is asked for again', async () => {
    const sent = await fromCamera();
    const { ctx } = await onVisit(sent);
    const other = await fromCamera(330);
    await expect(takePiece(ctx, { sha256: sha(sent), pieces: 1, index: 0 }, other)).rejects.toMatchObject({ code: 'conflict' });
    expect(await send(ctx, sent)).toMatchObject({ done: true });
  });

  it('of more pixels than any camera has is refused unread', async () => {
    const flat = await sharp({ create: { width: 12_000, height: 6_000, channels: 3, background: '#000' } })
      .png()
      .toBuffer();
    expect(flat.byteLength).toBeLessThan(CHUNK_BYTES * 4);
    await expect(reEncoded(flat)).rejects.toMatchObject({ code: 'invalid' });
  });

  it('is shown to the office and to whoever had a visit in that kitchen, and to nobody else', async () => {
    const sent = await fromCamera();
    const { ctx, person } = await onVisit(sent);
    await send(ctx, sent);
    const { id } = await database.db.storedFile.findUniqueOrThrow({ where: { sha256: sha(sent) } });
    const stranger = await database.db.user.create({ data: personRow() });
    const as = (userId: string, role: 'owner' | 'dispatcher' | 'technician') => ({
      db: database.db,
      pictures: picturesIn(database.db),
      actor: { userId, role, name: '', sessionId: '' } as never,
    });
    expect((await readPicture(as(person.id, 'technician'), id, 'full')).mime).toBe('image/jpeg');
    expect((await readPicture(as(stranger.id, 'dispatcher'), id, 'thumb')).bytes.byteLength).toBeGreaterThan(100);
    await expect(readPicture(as(stranger.id, 'technician'), id, 'full')).rejects.toMatchObject({ code: 'not_found' });
    await expect(readPicture(as(stranger.id, 'technician'), id, 'thumb')).rejects.toMatchObject({ code: 'not_found' });
  });

  it('begun and never ended takes no more room than a few pictures', async () => {
    const { ctx } = await onVisit(await fromCamera());
    const piece = new Uint8Array(CHUNK_BYTES);
    for (let i = 0; i < 100; i++) await takePiece(ctx, { sha256: sha(Buffer.from(`picture ${i}`)), pieces: 3, index: 0 }, piece);
    const [{ bytes }] = (await database.db
      .$queryRaw`SELECT sum(octet_length(bytes))::int AS bytes FROM "UploadChunk" WHERE "userId" = ${ctx.actor.userId}::uuid`) as [
      { bytes: number },
    ];
    expect(bytes).toBeLessThanOrEqual(20_000_000);
    // The latest is among those kept.
    expect((await uploadState(ctx, { sha256: sha(Buffer.from('picture 99')), pieces: 3 })).have).toEqual([0]);
  });
});
