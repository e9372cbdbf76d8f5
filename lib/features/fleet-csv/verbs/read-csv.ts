import 'server-only';
import Papa from 'papaparse';
import type { Line, Problem } from '../../../core/fleet-csv';

export const MAX_ROWS = 20_000;
export const MAX_BYTES = 10_000_000;

const broken = (line: number, message: string): Problem => ({ line, column: '', value: '', message, severity: 'error' });

/** What its first lines are split by most evenly. An empty line tells nothing: a short file ends in one, and a rule holds a semicolon. */
const delimiterOf = (text: string): string =>
  Papa.parse(text, { delimiter: '', delimitersToGuess: [',', ';', '\t', '|'], preview: 10, skipEmptyLines: true }).meta.delimiter;

/** Between tabs a lone mark means “the same as above”, and opens no value that runs on over tabs. */
const LONE_MARK = /(^|\t)"(?=\t|\r?\n|$)/gm;
const marksKept = (text: string) => (text.includes('\t') ? text.replace(LONE_MARK, '$1""""') : text);

/** Splits a file into lines, numbered as an editor numbers them; a value may run over several. Empty lines are passed over. */
export function readCsv(text: string): { lines: Line[]; problems: Problem[] } {
  if (text.includes('\u0000'))
    return { lines: [], problems: [broken(1, 'This is not a text file. In the spreadsheet choose “Save as” and “CSV UTF-8”.')] };
  const plain = marksKept(text.replace(/^\uFEFF/, ''));
  const { data, errors } = Papa.parse<string[]>(plain, { delimiter: delimiterOf(plain), skipEmptyLines: false });
  const lines: Line[] = [];
  const startOf: number[] = [];
  let line = 1;
  for (const cells of data) {
    startOf.push(line);
    if (cells.some((c) => c.trim() !== '')) lines.push({ line, cells });
    line += 1 + cells.reduce((sum, c) => sum + (c.match(/\r\n|\n|\r/g)?.length ?? 0), 0);
  }
  const problems = errors
    .filter((e) => e.type === 'Quotes')
    .map((e) =>
      broken(
        startOf[e.row ?? 0] ?? 1,
        'A quotation mark is out of place: a value that begins with one must end with one, and marks inside are doubled.',
      ),
    );
  const garbled = lines.find((l) => l.cells.some((c) => c.includes('\uFFFD')));
  if (garbled) problems.push(broken(garbled.line, 'Letters here cannot be read. Save the file as “CSV UTF-8” and try again.'));
  if (lines.length - 1 > MAX_ROWS) problems.push(broken(1, `${lines.length - 1} rows; at most ${MAX_ROWS} in one go. Split the file.`));
  return { lines, problems };
}
