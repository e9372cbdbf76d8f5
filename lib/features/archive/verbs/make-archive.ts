import 'server-only';
import { randomUUID } from 'node:crypto';
import type { Db, Tx } from '../../../database/client';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { writeArchive } from './write-archive';

/** How long it can be fetched. */
const KEPT_DAYS = 3;
const DAY_MS = 86_400_000;
const PIECE = 2 * 1024 * 1024;
/** A process that makes one says that it lives at least every few seconds; one silent for so long is taken to be dead. */
const SILENT_SECONDS = 60;
const BEAT_MS = 1000;
const MAX_TRIES = 3;

/** Takes what waits, unless another process has. @returns the run and the claim under which it is written, or null */
async function claimNext(db: Tx): Promise<{ id: string; claim: string } | null> {
  const claim = randomUUID();
  const [row] = await db.$queryRaw<{ id: string }[]>`
    UPDATE "ArchiveRun" SET status = 'running', claim = ${claim}::uuid, "beatAt" = now(), tries = tries + 1, "doneRows" = 0
    WHERE id = (SELECT id FROM "ArchiveRun" WHERE status = 'queued' LIMIT 1 FOR UPDATE SKIP LOCKED) RETURNING id::text`;
  return row ? { id: row.id, claim } : null;
}

/** Ends what a dead process left, or puts it back; takes away what has expired. */
async function sweepArchives(db: Db, now: Date): Promise<void> {
  await db.archiveRun.deleteMany({ where: { expiresAt: { lt: now } } });
  await db.$executeRaw`
    UPDATE "ArchiveRun" SET claim = NULL,
      status = (CASE WHEN tries >= ${MAX_TRIES} THEN 'failed' ELSE 'queued' END)::"ArchiveStatus",
      error = CASE WHEN tries >= ${MAX_TRIES} THEN 'It was cut short three times.' ELSE '' END
    WHERE status = 'running' AND coalesce("beatAt", '-infinity') < now() - make_interval(secs => ${SILENT_SECONDS})`;
}

/** Cuts what comes into pieces of one size, and waits until each is kept. */
function intoPieces(keep: (index: number, bytes: Uint8Array<ArrayBuffer>) => Promise<void>) {
  let waiting: Uint8Array[] = [];
  let size = 0;
  const sum = { bytes: 0, pieces: 0 };
  const flush = async () => {
    if (size === 0) return;
    const piece = Buffer.concat(waiting, size);
    waiting = [];
    size = 0;
    sum.bytes += piece.length;
    await keep(sum.pieces++, new Uint8Array(piece));
  };
  const stream = new WritableStream<Uint8Array>({
    async write(chunk) {
      // The writer may use its buffer again.
      waiting.push(Uint8Array.from(chunk));
      size += chunk.length;
      if (size >= PIECE) await flush();
    },
    close: flush,
  });
  return { stream, sum };
}

class NotOurs extends Error {}

/**
 * Makes the archive that waits, if any, in pieces that any process can hand out. How far it is can be read on the run.
 * @param url of the database, for a connection that sees one moment @param schema text of `prisma/schema.prisma`
 */
export async function makeArchive(
  { db, now, pictures }: { db: Db; now: Date; pictures: Pictures },
  url: string,
  schema: string,
): Promise<void> {
  await sweepArchives(db, now);
  const claimed = await claimNext(db);
  if (!claimed) return;
  const { id, claim } = claimed;
  const ours = { id, claim, status: 'running' as const };
  let progress = { rows: 0, doneRows: 0 };
  const beat = setInterval(() => {
    db.archiveRun.updateMany({ where: ours, data: { ...progress, beatAt: new Date() } }).catch(() => {});
  }, BEAT_MS);
  try {
    await db.archivePiece.deleteMany({ where: { runId: id } });
    const { stream, sum } = intoPieces(async (index, bytes) => {
      if ((await db.archiveRun.count({ where: ours })) === 0) throw new NotOurs('another process took it');
      await db.archivePiece.create({ data: { runId: id, index, bytes } });
    });
    const made = await writeArchive(url, stream, { now, schema, pictures, onProgress: (p) => (progress = p) });
    clearInterval(beat);
    await db.archiveRun.updateMany({
      where: ours,
      data: { ...made, ...sum, status: 'done', finishedAt: new Date(), expiresAt: new Date(now.getTime() + KEPT_DAYS * DAY_MS) },
    });
  } catch (e) {
    clearInterval(beat);
    if (e instanceof NotOurs) return;
    await db.archivePiece.deleteMany({ where: { runId: id } });
    await db.archiveRun.updateMany({
      where: ours,
      data: {
        status: 'failed',
        finishedAt: new Date(),
        error: 'It could not be made. Nothing was changed; try again, and tell whoever keeps the server.',
      },
    });
    throw e;
  } finally {
    clearInterval(beat);
  }
}
