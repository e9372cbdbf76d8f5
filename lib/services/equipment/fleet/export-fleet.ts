import 'server-only';
import Papa from 'papaparse';
import { columnsIn, template, writeRow } from '../../../core/fleet-csv';
import type { Tx } from '../../../data/client';
import { fleetRows, fleetTaskKinds } from '../../../data/fleet';
import { unitsOf } from '../../../data/people';

/** Spreadsheets read a file as UTF-8 only when it says so. */
const csv = (table: string[][]) => `\uFEFF${Papa.unparse(table, { newline: '\r\n' })}\r\n`;

/** The whole fleet in the columns that the import reads, in the asker's units. */
export async function exportFleet({ db, actor }: { db: Tx; actor: { userId: string } }): Promise<string> {
  const [units, kinds, rows] = await Promise.all([unitsOf(db, actor.userId), fleetTaskKinds(db), fleetRows(db)]);
  const columns = columnsIn(units, kinds);
  return csv([columns.map((c) => c.header), ...rows.map((r) => writeRow(r, columns))]);
}

/** The file to start from, with invented rows. */
export const fleetTemplate = async ({ db }: { db: Tx }): Promise<string> => csv(template(await fleetTaskKinds(db)));

/** What is wrong with a file as a file: line, column, value, what to do. */
export function problemsCsv(problems: readonly { line: number; column: string; value: string; message: string; severity: string }[]): string {
  return csv([['line', 'column', 'value', 'what to do', 'kind'], ...problems.map((p) => [String(p.line), p.column, p.value, p.message, p.severity])]);
}
