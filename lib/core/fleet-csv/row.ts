import type { Column } from './column';
import { emptyRow, type Line, type Problem, type RowValues } from './types';

/** A text that a spreadsheet would run as a formula is written with an apostrophe before it; both ways. */
const FORMULA = /^'*[=+\-@\t\r]/;
export const guarded = (text: string): string => (FORMULA.test(text) && !/^[+-]?[\d.]+(e[+-]?\d+)?$/i.test(text) ? `'${text}` : text);
export const unguarded = (text: string): string => (text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text);

/** Reads one line by its header. Every bad cell is named; the row holds what could be read. */
export function readRow(line: Line, at: readonly (Column | null)[]): { row: RowValues; problems: Problem[] } {
  const row = emptyRow();
  const problems: Problem[] = [];
  const tell = (column: string, value: string, message: string) =>
    problems.push({ line: line.line, column, value, message, severity: 'error' });
  const spilled = line.cells.slice(at.length).filter((c) => c.trim() !== '');
  if (spilled.length > 0)
    tell('', spilled.join(', ').slice(0, 80), 'More values than columns. A comma inside a value needs quotes around the value.');
  at.forEach((column, i) => {
    if (!column) return;
    const text = unguarded((line.cells[i] ?? '').trim());
    if (text === '') {
      if (column.required) tell(column.header, '', 'Is empty and every row needs it.');
      return;
    }
    const problem = column.take(text, row);
    if (problem) tell(column.header, text.slice(0, 80), problem);
  });
  if (
    (row.kitchen.lat === undefined) !== (row.kitchen.lng === undefined) &&
    problems.every((p) => p.column !== 'lat' && p.column !== 'lng')
  )
    tell(row.kitchen.lat === undefined ? 'lat' : 'lng', '', 'lat and lng go together. Fill both or neither.');
  return { row, problems };
}

/** A row as the columns write it, in their order. */
export const writeRow = (row: RowValues, columns: readonly Column[]): string[] => columns.map((c) => guarded(c.put(row)));
