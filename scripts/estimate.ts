/**
 * Reads a data logger's file and prints what each row says of the condenser, as CSV or, with --json, as JSON.
 *
 *   npx tsx scripts/estimate.ts FILE.csv [--json] [--causes]
 *
 * Every row goes through the joint estimate of lib/core/condenser, against what the unit's clean rows came to by it;
 * --causes adds the likeliest cause and its probability (about a millisecond a row).
 *
 * Exit code: 0 all read; 1 some column or row was not understood (named on stderr), the rest is printed;
 * 2 nothing could be done.
 */
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import {
  analyseLog,
  CAUSE_HEADER,
  COLUMN_NAMES,
  LOG_HEADER,
  logRecord,
  readHeader,
  readRow,
  type LogRow,
  type Problem,
} from '../checks/logger-file';

const USAGE = `Usage: npx tsx scripts/estimate.ts FILE.csv [--json] [--causes]\nColumns: ${COLUMN_NAMES.join(', ')}`;

function fail(message: string): never {
  process.stderr.write(`${message}\n`);
  process.exit(2);
}

function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    return fail(`Cannot read ${file}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** Rows of cells with the line each began on; a quoted cell may span lines. */
function tableOf(text: string): string[][] {
  return Papa.parse<string[]>(text, { skipEmptyLines: false }).data;
}

/** A row that could not be read keeps its place in the output, with nothing but its status. */
const UNREADABLE = {
  ...(Object.fromEntries(LOG_HEADER.map((h) => [h, null])) as Record<(typeof LOG_HEADER)[number], null>),
  status: 'unreadable',
};

const isBlank = (cells: readonly string[]) => cells.every((c) => c.trim() === '');

function main(args: readonly string[]): number {
  const files = args.filter((a) => !a.startsWith('--'));
  const wrong = args.find((a) => a.startsWith('--') && a !== '--json' && a !== '--causes');
  const causes = args.includes('--causes');
  const [file] = files;
  if (!file || files.length > 1 || wrong) fail(wrong ? `Unknown option ${wrong}\n${USAGE}` : USAGE);
  const table = tableOf(readText(file));
  const headAt = table.findIndex((cells) => !isBlank(cells));
  if (headAt < 0) fail(`${file} is empty`);
  const header = readHeader(table[headAt] as string[]);
  if (header.missing.length > 0) fail(`${file}: no column ${header.missing.join(', no column ')}\n${USAGE}`);

  const problems: Problem[] = header.unknown.map((column) => ({
    line: headAt + 1,
    column,
    message: 'unknown column, left out',
  }));
  const rows: LogRow[] = [];
  table.forEach((cells, i) => {
    if (i <= headAt || isBlank(cells)) return;
    const read = readRow(header, cells, i + 1);
    problems.push(...read.problems);
    if (read.row) rows.push(read.row);
  });
  for (const p of problems) process.stderr.write(`${file}:${p.line}: ${p.column ? `${p.column}: ` : ''}${p.message}\n`);
  if (rows.length === 0) fail(`${file}: no row could be read`);

  const records = analyseLog(rows, { causes }).map(logRecord);
  const lost = new Set(problems.filter((p) => p.line !== headAt + 1).map((p) => p.line));
  for (const r of rows) lost.delete(r.line);
  for (const line of lost) records.push({ ...UNREADABLE, line });
  records.sort((a, b) => Number(a.line) - Number(b.line));
  process.stdout.write(
    args.includes('--json')
      ? `${JSON.stringify({ rows: records, problems }, null, 1)}\n`
      : `${Papa.unparse({ fields: [...LOG_HEADER, ...(causes ? CAUSE_HEADER : [])], data: records }, { newline: '\n' })}\n`,
  );
  return problems.length > 0 ? 1 : 0;
}

// A reader that stops early, as `head` does, is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});
process.exitCode = main(process.argv.slice(2));
