import 'server-only';
import { NO_CHOICES, type SheetChoices } from '../../../core/sheet';
import { STORED_CHOICES, STORED_REPORT, STORED_SHEETS } from '../../../database/stored/imports';
import type { Tx } from '../../../database/client';

export type { ImportReport, Made } from '../../../database/stored/imports';

/** A file small enough to mend in the browser. */
const MENDABLE = 200_000;

/** One import with its report, or null. `csv` is what was handed in, where it can be mended by hand: never all of a large file. */
export async function importRun(db: Tx, id: string) {
  const run = await db.importRun.findUnique({ where: { id }, omit: { csv: true, source: true } });
  if (!run) return null;
  const [handed] = await db.$queryRaw<{ csv: string; size: number }[]>`
    SELECT CASE WHEN length(csv) <= ${MENDABLE} THEN csv ELSE '' END AS csv, length(csv) AS size FROM "ImportRun" WHERE id = ${id}::uuid`;
  return {
    ...run,
    choices: STORED_CHOICES.read(run.choices),
    csv: handed?.csv ?? '',
    size: handed?.size ?? 0,
    report: STORED_REPORT.read(run.problems),
  };
}

/** What was handed in, with what was decided about it. */
export const handedIn = (run: { csv: string; source: unknown; choices: unknown }) => ({
  csv: run.csv,
  sheets: STORED_SHEETS.readOrNull(run.source),
  choices: STORED_CHOICES.read(run.choices),
});

export const recentImports = (db: Tx) =>
  db.importRun.findMany({
    orderBy: { createdAt: 'desc' },
    take: 8,
    select: { id: true, fileName: true, status: true, rows: true, doneRows: true, createdAt: true },
  });

/** What was decided about the last sheet of this form, or nothing. */
export async function rememberedChoices(db: Tx, form: string): Promise<SheetChoices> {
  return STORED_CHOICES.readOrNull((await db.sheetMemory.findUnique({ where: { form } }))?.choices) ?? NO_CHOICES;
}
