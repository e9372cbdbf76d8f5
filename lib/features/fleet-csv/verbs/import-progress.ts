import 'server-only';
import type { ImportStatus } from '../../../core/fleet-csv';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { tryLockAll } from '../../../database/lock';
import { isId } from '../../../core/ids/is-id';

export type ImportProgress = { status: ImportStatus; rows: number; doneRows: number };

/** Time an import may take to get hold of its lock. */
const GRACE_MS = 15_000;

/**
 * How far an import is. One that is marked running while nobody holds the fleet's lock was cut off with the server: its
 * transaction is gone and nothing was written, so it is marked failed. @throws AppError not_found
 */
export async function importProgress({ db, now }: { db: Db; now: Date }, runId: string): Promise<ImportProgress> {
  const run =
    isId(runId) &&
    (await db.importRun.findUnique({ where: { id: runId }, select: { status: true, rows: true, doneRows: true, startedAt: true } }));
  if (!run) throw new AppError('not_found', 'That import is not on file.');
  const waited = run.startedAt ? now.getTime() - run.startedAt.getTime() : 0;
  if (run.status === 'running' && waited > GRACE_MS && (await db.$transaction((tx) => tryLockAll(tx, 'fleet')))) {
    const { count } = await db.importRun.updateMany({
      where: { id: runId, status: 'running' },
      data: { status: 'failed', doneRows: 0, finishedAt: now },
    });
    if (count > 0) return { status: 'failed', rows: run.rows, doneRows: 0 };
    return importProgress({ db, now }, runId);
  }
  return { status: run.status, rows: run.rows, doneRows: run.doneRows };
}
