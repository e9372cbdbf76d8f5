import 'server-only';
import Papa from 'papaparse';
import { todayIn } from '../../../core/calendar';
import { shopTimeZone } from '../../shop/reads/shop';
import { AppError } from '../../../core/errors';
import { columnsIn, guarded, template, writeRow } from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
import { fleetTaskKinds } from '../reads/fleet';
import { fleetRows } from '../reads/fleet-rows';
import { importRun } from '../reads/imports';
import { unitsOf } from '../../people/reads/people';
import { isId } from '../../../core/ids/is-id';

/** Spreadsheets read a file as UTF-8 only when it says so. */
const MARK = '\uFEFF';
const lines = (table: string[][]) => `${Papa.unparse(table, { newline: '\r\n' })}\r\n`;
const csv = (table: string[][]) => MARK + lines(table);

/** The whole fleet in the columns that the import reads, in the asker's units, piece by piece as it is read. */
export async function* exportFleet({ db, actor }: { db: Tx; actor: { userId: string } }): AsyncGenerator<string> {
  const [units, kinds] = await Promise.all([unitsOf(db, actor.userId), fleetTaskKinds(db)]);
  const columns = columnsIn(units, kinds);
  yield csv([columns.map((c) => c.header)]);
  for await (const rows of fleetRows(db)) yield lines(rows.map((r) => writeRow(r, columns)));
}

/** What the file is called: by the day it is at the shop. */
export const exportName = async ({ db, now }: { db: Tx; now: Date }): Promise<string> =>
  `fleet-${todayIn(await shopTimeZone(db), now.getTime())}.csv`;

/** The file to start from, with invented rows. */
export const fleetTemplate = async ({ db }: { db: Tx }): Promise<string> => csv(template(await fleetTaskKinds(db)));

/** What is wrong with a checked file, as a file to mend it by. @throws AppError not_found */
export async function importProblems({ db }: { db: Tx }, runId: string): Promise<string> {
  const run = isId(runId) ? await importRun(db, runId) : null;
  if (!run) throw new AppError('not_found', 'That import is not on file.');
  const rows = run.report.problems.map((p) => [String(p.line), p.column, guarded(p.value), p.message, p.severity]);
  return csv([['line', 'column', 'value', 'what to do', 'kind'], ...rows]);
}
