import 'server-only';
import Papa from 'papaparse';
import { guarded } from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
import { auditAfter } from '../reads/audit';

const COLUMNS = ['at (UTC)', 'who', 'what', 'record', 'record id', 'field', 'from', 'to', 'more'];
/** Spreadsheets read a file as UTF-8 only when it says so. */
const MARK = '\uFEFF';
const lines = (table: string[][]) => `${Papa.unparse(table, { newline: '\r\n' })}\r\n`;
const said = (value: unknown): string =>
  guarded(value === undefined || value === null ? '' : typeof value === 'string' ? value : JSON.stringify(value));

/** Who changed what, from what, to what, since the shop began: CSV (UTF-8, RFC 4180), a line a field, piece by piece as it is read. */
export async function* exportChanges({ db }: { db: Tx }): AsyncGenerator<string> {
  yield MARK + lines([COLUMNS]);
  for await (const entries of auditAfter(db))
    yield lines(
      entries.flatMap(({ at, by, action, entity, entityId, changed, more }) => {
        const head = [at.toISOString(), guarded(by), action, entity, entityId];
        const rest = Object.keys(more).length > 0 ? said(more) : '';
        if (changed.length === 0) return [[...head, '', '', '', rest]];
        return changed.map(({ field, from, to }) => [...head, field, said(from), said(to), rest]);
      }),
    );
}
