import { whole } from '../../../core/measures/figures';
import 'server-only';
import { createHash } from 'node:crypto';
import { AppError } from '../../../core/errors';
import type { RawSheet, SheetReading } from '../../../core/sheet';
import { MAX_ROWS, readCsv } from './read-csv';

const MAX_COLUMNS = 80;
const MAX_CELL = 1000;

/** Held to what an import can take. @throws AppError too_large */
export function bounded(sheets: readonly RawSheet[]): RawSheet[] {
  if (sheets.reduce((sum, s) => sum + s.rows.length, 0) > MAX_ROWS + 200)
    throw new AppError('too_large', `More than ${whole(MAX_ROWS)} rows. Split the sheet.`, 'file');
  return sheets.map(({ name, rows }) => ({
    name: name.slice(0, 100),
    // PostgreSQL keeps no null characters.
    rows: rows.map((cells) => cells.slice(0, MAX_COLUMNS).map((c) => c.replaceAll('\u0000', '').slice(0, MAX_CELL))),
  }));
}

/** Delimited text as a sheet. */
export function sheetOfText(text: string): RawSheet {
  const rows: string[][] = [];
  for (const { line, cells } of readCsv(text).lines) {
    while (rows.length < line - 1) rows.push([]);
    rows.push([...cells]);
  }
  return { name: '', rows };
}

/** What tells sheets of one form apart from others: their column names, in any order. */
export function formOf({ columns }: Pick<SheetReading, 'columns'>): string {
  const names = columns
    .map((c) =>
      c.header
        .toLowerCase()
        .replace(/[^a-z0-9#]+/g, ' ')
        .trim(),
    )
    .sort();
  return createHash('sha256').update(names.join('\n')).digest('hex');
}

const OURS = ['customer', 'kitchen', 'unit', 'kind', 'placement', 'refrigerant'];
/** Whether the first line holds the names of our own file: then nothing is guessed. */
export function isOurFile(header: readonly string[] | undefined): boolean {
  const names = new Set(
    (header ?? []).map((c) =>
      c
        .replace(/^\uFEFF/, '')
        .trim()
        .toLowerCase()
        .replace(/[\s-]+/g, '_'),
    ),
  );
  return OURS.every((name) => names.has(name));
}
