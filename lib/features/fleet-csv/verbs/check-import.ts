import 'server-only';
import { AppError } from '../../../core/errors';
import { reportJson } from '../reads/imports';
import type { Db } from '../../../database/client';
import { planImport } from './plan-import';
import { MAX_BYTES } from './read-csv';

/** Dry run of a file. It is kept with its report; nothing else is written. @throws AppError too_large | invalid */
export async function checkImport(
  { db, actor, now }: { db: Db; actor: { userId: string }; now: Date },
  input: { fileName: string; csv: string },
): Promise<{ runId: string }> {
  if (input.csv.trim() === '') throw new AppError('invalid', 'Choose a file or paste its lines.', 'file');
  if (input.csv.length > MAX_BYTES) throw new AppError('too_large', 'The file is larger than 10 MB. Split it.', 'file');
  const { plan, report } = await planImport(db, input.csv, now);
  const { id } = await db.importRun.create({
    // PostgreSQL keeps no null characters; the report has said so already.
    data: {
      createdById: actor.userId,
      fileName: input.fileName.slice(0, 200),
      csv: input.csv.replaceAll('\u0000', ''),
      rows: plan.rows,
      problems: reportJson(report),
      createdAt: now,
    },
  });
  return { runId: id };
}
