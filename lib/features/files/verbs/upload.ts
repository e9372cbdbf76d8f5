import 'server-only';
import { createHash } from 'node:crypto';
import { CHUNK_BYTES, type UploadState } from '../../../core/tablet';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { reEncoded } from './re-encode';

type Ctx = { db: Db; actor: { userId: string }; now: Date };
type Asked = { sha256: string; pieces: number };
const STALE_MS = 14 * 86_400_000;
/** Unfinished pieces that one person may leave here: some fifteen pictures. */
const MOST_UNFINISHED_BYTES = 20_000_000;

const DONE: UploadState = { have: [], done: true };

/** What has arrived of a picture. */
export async function uploadState(ctx: Ctx, asked: Asked): Promise<UploadState> {
  return (await onFile(ctx.db, asked.sha256)) ? DONE : { have: await arrived(ctx, asked), done: false };
}

async function arrived({ db, actor }: Ctx, { sha256, pieces }: Asked): Promise<number[]> {
  const have = await db.uploadChunk.findMany({
    where: { sha256, userId: actor.userId, total: pieces },
    select: { index: true },
    orderBy: { index: 'asc' },
  });
  return have.map((c) => c.index);
}

/**
 * Takes in one piece; the same piece twice is no harm. With the last one the picture is put together, checked against
 * its hash and made anew.
 * @throws AppError conflict when it is to be sent again | invalid | too_large
 */
export async function takePiece(
  ctx: Ctx & { pictures: Pictures },
  asked: Asked & { index: number },
  bytes: Uint8Array,
): Promise<UploadState> {
  const { db, actor, now } = ctx;
  const { sha256, pieces, index } = asked;
  const last = index === pieces - 1;
  if (bytes.byteLength > CHUNK_BYTES) throw new AppError('invalid', 'A piece of the picture is too large.');
  // The line's fault, not the picture's: no reason to refuse it for good.
  if (bytes.byteLength === 0 || (!last && bytes.byteLength !== CHUNK_BYTES))
    throw new AppError('conflict', 'A piece of the picture was cut short. Send it again.');
  if (await onFile(db, sha256)) return DONE;
  if (pieces === 1) return finish(ctx, sha256, bytes);
  const key = { sha256, userId: actor.userId, index };
  const data = { bytes: new Uint8Array(bytes), total: pieces, at: now };
  await db.uploadChunk.upsert({ where: { sha256_userId_index: key }, create: { ...key, ...data }, update: data });
  await makeRoom(ctx, sha256);
  const have = await arrived(ctx, asked);
  if (have.length < pieces) return { have, done: false };
  const chunks = await db.uploadChunk.findMany({ where: { sha256, userId: actor.userId }, orderBy: { index: 'asc' } });
  return finish(ctx, sha256, Buffer.concat(chunks.map((c) => c.bytes)));
}

/** Over the quota the picture that was begun first is given up: its tablet still holds it and sends it anew. */
async function makeRoom({ db, actor }: Ctx, keep: string): Promise<void> {
  const begun = await db.$queryRaw<{ sha256: string; bytes: number }[]>`
    SELECT sha256, sum(octet_length(bytes))::float8 AS bytes FROM "UploadChunk"
    WHERE "userId" = ${actor.userId}::uuid GROUP BY sha256 ORDER BY sha256 = ${keep} DESC, max(at) DESC, sha256`;
  let room = MOST_UNFINISHED_BYTES;
  const over = begun.filter((b) => (room -= b.bytes) < 0 && b.sha256 !== keep).map((b) => b.sha256);
  if (over.length > 0) await db.uploadChunk.deleteMany({ where: { userId: actor.userId, sha256: { in: over } } });
}

async function finish({ db, actor, now, pictures }: Ctx & { pictures: Pictures }, sha256: string, whole: Uint8Array): Promise<UploadState> {
  const mine = { sha256, userId: actor.userId };
  const away = () => db.uploadChunk.deleteMany({ where: { OR: [mine, { at: { lt: new Date(now.getTime() - STALE_MS) } }] } });
  if (createHash('sha256').update(whole).digest('hex') !== sha256) {
    await away();
    throw new AppError('conflict', 'The picture arrived damaged. It will be sent again.');
  }
  const { bytes, ...picture } = await reEncoded(whole).catch(async (error) => {
    await away();
    throw error;
  });
  // Its bytes first: a picture without a row is in nobody's way, a row without its picture would be a loss.
  const content = await pictures.put(bytes);
  await db.storedFile.createMany({ data: { sha256, content, ...picture, createdAt: now }, skipDuplicates: true });
  await away();
  await onFile(db, sha256);
  return DONE;
}

/** Whether the picture is on file; if so it is tied to every photo entry that names it, whichever came first. */
async function onFile(db: Db, sha256: string): Promise<boolean> {
  const file = await db.storedFile.findUnique({ where: { sha256 }, select: { id: true } });
  if (file) await db.photo.updateMany({ where: { sha256, fileId: null }, data: { fileId: file.id } });
  return file !== null;
}
