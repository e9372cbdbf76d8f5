import 'server-only';
import Papa from 'papaparse';
import { AppError } from '../../../core/errors';
import { oneLine } from '../../../core/wording/plain-text';
import { NO_CHOICES, type RawSheet } from '../../../core/sheet';
import { STORED_CHOICES, STORED_REPORT, STORED_SHEETS } from '../../../database/stored/imports';
import { rememberedChoices } from '../reads/imports';
import type { Db } from '../../../database/client';
import { readingOf, sheetOfLines } from '../reads/sheet-reading';
import { planImport } from './plan-import';
import { MAX_BYTES, readCsv } from './read-csv';
import { bounded, formOf, isOurFile, sheetOfText } from './read-sheets';
import { readXlsx } from './read-xlsx';

type Handed = { fileName: string } & ({ csv: string } | { bytes: Uint8Array } | { lines: string; kitchenId: string });

/**
 * Dry run of a file. It is kept with its report; nothing else is written. A file in our own columns is read strictly; any
 * other is read as a sheet, with what was decided about the last one of its form. @throws AppError too_large | invalid
 */
export async function checkImport(
  { db, actor, now }: { db: Db; actor: { userId: string }; now: Date },
  input: Handed,
): Promise<{ runId: string }> {
  const { csv, sheets } = 'lines' in input ? { csv: '', sheets: bounded([await sheetOfLines(db, input, now)]) } : await handedIn(input);
  const choices = sheets ? await rememberedChoices(db, formOf(await readingOf(db, sheets, NO_CHOICES, now))) : NO_CHOICES;
  const { plan, report, reading } = await planImport(db, { csv, sheets, choices }, now);
  const { id } = await db.importRun.create({
    data: {
      createdById: actor.userId,
      fileName: oneLine(input.fileName.slice(0, 200)),
      // PostgreSQL keeps no null characters; the report has said so already.
      csv: csv.replaceAll('\u0000', ''),
      ...(sheets ? { source: STORED_SHEETS.write(sheets), choices: STORED_CHOICES.write(choices) } : {}),
      rows: reading?.rows ?? plan.rows,
      problems: STORED_REPORT.write(report),
      createdAt: now,
    },
  });
  return { runId: id };
}

const readWorkbook = (bytes: Uint8Array): Promise<RawSheet[]> =>
  readXlsx(bytes).catch(() => {
    const message = 'This workbook cannot be read. In the spreadsheet choose “Save as” and “Excel workbook (.xlsx)” or “CSV UTF-8”.';
    throw new AppError('invalid', message, 'file');
  });

/** The file as text in our own columns, or as sheets of any form. */
async function handedIn(input: Exclude<Handed, { lines: string }>): Promise<{ csv: string; sheets: RawSheet[] | null }> {
  if ('csv' in input) {
    if (input.csv.trim() === '') throw new AppError('invalid', 'Choose a file or paste its lines.', 'file');
    if (input.csv.length > MAX_BYTES) throw new AppError('too_large', 'The file is larger than 10 MB. Split it.', 'file');
    const { lines, problems } = readCsv(input.csv);
    if (problems.length > 0 || isOurFile(lines[0]?.cells)) return { csv: input.csv, sheets: null };
    return { csv: '', sheets: bounded([sheetOfText(input.csv)]) };
  }
  const sheets = bounded(await readWorkbook(input.bytes));
  const ours = sheets.find((s) => isOurFile(s.rows[0]));
  return ours ? { csv: Papa.unparse(ours.rows), sheets: null } : { csv: '', sheets };
}
