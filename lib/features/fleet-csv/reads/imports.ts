import 'server-only';
import { NO_CHOICES, type SheetChoices } from '../../../core/sheet';
import { STORED_CHOICES, STORED_REPORT, STORED_SHEETS } from '../../../database/stored/imports';
import { Prisma, type Tx } from '../../../database/client';

export type { ImportReport, Made } from '../../../database/stored/imports';

/** A file small enough to mend in the browser. */
const MENDABLE = 200_000;

/** Of a file in a form of ours, as many problems as a page shows; of a sheet that fits, all, for its notes are counted by their cause. */
const reportFor = (first: number | undefined) =>
  first === undefined
    ? Prisma.sql`problems`
    : Prisma.sql`CASE WHEN problems ? 'sheet' AND problems -> 'summary' ->> 'errors' = '0' OR jsonb_typeof(problems -> 'problems') IS DISTINCT FROM 'array' THEN problems
        ELSE jsonb_set(problems, '{problems}', jsonb_path_query_array(problems, ${`$.problems[0 to ${first - 1}]`}::jsonpath)) END`;

type Handed = { csv: string; size: number; problems: unknown; kept: number };

/**
 * One import with its report, or null. `csv` is what was handed in, where it can be mended by hand: never all of a large file. `first`: so many
 * of its problems, of `kept`; thousands would hold everybody up while they are read.
 */
export async function importRun(db: Tx, id: string, first?: number) {
  const run = await db.importRun.findUnique({ where: { id }, omit: { csv: true, source: true, problems: true } });
  if (!run) return null;
  const [handed] = await db.$queryRaw<Handed[]>`
    SELECT CASE WHEN length(csv) <= ${MENDABLE} THEN csv ELSE '' END AS csv, length(csv) AS size, ${reportFor(first)} AS problems,
      CASE WHEN jsonb_typeof(problems -> 'problems') = 'array' THEN jsonb_array_length(problems -> 'problems') ELSE 0 END AS kept
    FROM "ImportRun" WHERE id = ${id}::uuid`;
  if (!handed) return null;
  const { csv, size, problems, kept } = handed;
  return { ...run, choices: STORED_CHOICES.read(run.choices), csv, size, kept, report: STORED_REPORT.read(problems) };
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
