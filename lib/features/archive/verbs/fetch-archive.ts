import 'server-only';
import { isId } from '../../../core/ids/is-id';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { writeAudit } from '../../audit/verbs/write-audit';

/**
 * An archive that is made and not expired, piece by piece; that somebody fetched it is written down.
 * @throws AppError not_found — never made, expired, or lost in a crash of the database
 */
export async function fetchArchive({ db, actor, now }: { db: Db; actor: { userId: string }; now: Date }, id: string) {
  const run =
    isId(id) &&
    (await db.archiveRun.findFirst({
      where: { id, status: 'done', expiresAt: { gt: now } },
      include: { _count: { select: { parts: true } } },
    }));
  if (!run || run._count.parts !== run.pieces) throw new AppError('not_found', 'That archive is not here any more. Make a new one.');
  await writeAudit(db, { at: now, userId: actor.userId, action: 'archive.fetched', entity: 'ArchiveRun', entityId: id });
  async function* pieces() {
    for (let index = 0; index < (run ? run.pieces : 0); index++) {
      const piece = await db.archivePiece.findUnique({ where: { runId_index: { runId: id, index } } });
      // The browser then sees fewer bytes than were promised, and says so.
      if (!piece) throw new Error('a piece of the archive is gone');
      yield piece.bytes;
    }
  }
  return { bytes: Number(run.bytes), madeAt: run.createdAt, pieces: pieces() };
}

/** How far one is. @throws AppError not_found */
export async function archiveProgress(db: Db, id: string) {
  const run = isId(id) && (await db.archiveRun.findUnique({ where: { id }, select: { status: true, rows: true, doneRows: true } }));
  if (!run) throw new AppError('not_found', 'That archive is not on file.');
  return run;
}
