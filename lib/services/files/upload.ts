import 'server-only';
import { createHash } from 'node:crypto';
import { CHUNK_BYTES, type UploadState } from '../../core/round';
import { AppError } from '../../core/errors';
import type { Db } from '../../data/client';
import { reEncoded } from './re-encode';

type Ctx = { db: Db; actor: { userId: string }; now: Date };
type Asked = { sha256: string; pieces: number };
const STALE_MS = 14 * 86_400_000;

/** What has arrived of a picture. */
export async function uploadState({ db, actor }: Ctx, { sha256, pieces }: Asked): Promise<UploadState> {
  if (await db.storedFile.findUnique({ where: { sha256 }, select: { id: true } })) return { have: [], done: await link(db, sha256) };
  const have = await db.uploadChunk.findMany({ where: { sha256, userId: actor.userId, total: pieces }, select: { index: true }, orderBy: { index: 'asc' } });
  return { have: have.map((c) => c.index), done: false };
}

/**
 * Takes in one piece; the same piece twice is no harm. With the last one the picture is put together, checked against
 * its hash and made anew.
 * @throws AppError invalid | too_large
 */
export async function takePiece(ctx: Ctx, asked: Asked & { index: number }, bytes: Uint8Array): Promise<UploadState> {
  const { db, actor, now } = ctx;
  const { sha256, pieces, index } = asked;
  const last = index === pieces - 1;
  if (bytes.byteLength === 0 || bytes.byteLength > CHUNK_BYTES || (!last && bytes.byteLength !== CHUNK_BYTES)) throw new AppError('invalid', 'A piece of the picture was cut short. Send it again.');
  if (pieces === 1) return finish(ctx, sha256, bytes);
  const before = await uploadState(ctx, asked);
  if (before.done) return before;
  const key = { sha256, userId: actor.userId, index };
  const data = { bytes: new Uint8Array(bytes), total: pieces, at: now };
  await db.uploadChunk.upsert({ where: { sha256_userId_index: key }, create: { ...key, ...data }, update: data });
  const state = await uploadState(ctx, asked);
  if (state.done || state.have.length < pieces) return state;
  const chunks = await db.uploadChunk.findMany({ where: { sha256, userId: actor.userId }, orderBy: { index: 'asc' } });
  return finish(ctx, sha256, Buffer.concat(chunks.map((c) => c.bytes)));
}

async function finish({ db, actor, now }: Ctx, sha256: string, whole: Uint8Array): Promise<UploadState> {
  if (await db.storedFile.findUnique({ where: { sha256 }, select: { id: true } })) return { have: [], done: await link(db, sha256) };
  const mine = { sha256, userId: actor.userId };
  const away = () => db.uploadChunk.deleteMany({ where: { OR: [mine, { at: { lt: new Date(now.getTime() - STALE_MS) } }] } });
  if (createHash('sha256').update(whole).digest('hex') !== sha256) {
    await away();
    throw new AppError('conflict', 'The picture arrived damaged. It will be sent again.');
  }
  const picture = await reEncoded(whole).catch(async (error) => {
    await away();
    throw error;
  });
  await db.storedFile.createMany({ data: { sha256, ...picture, createdAt: now }, skipDuplicates: true });
  await away();
  return { have: [], done: await link(db, sha256) };
}

/** Ties the file to every photo entry that names it, whichever came first. */
async function link(db: Db, sha256: string): Promise<true> {
  const file = await db.storedFile.findUniqueOrThrow({ where: { sha256 }, select: { id: true } });
  await db.photo.updateMany({ where: { sha256, fileId: null }, data: { fileId: file.id } });
  return true;
}
