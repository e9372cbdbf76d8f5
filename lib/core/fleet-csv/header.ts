import { distance } from '../wording/distance';
import type { Column } from './column';
import type { Line, Problem } from './types';

const plain = (s: string) =>
  s
    .replace(/^\uFEFF/, '')
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');

/** For "did you mean": in a short name two letters are no slip, "id" is not meant for "kind". */
function near(a: string, b: string): boolean {
  const shorter = Math.min(a.length, b.length);
  const slips = shorter < 3 ? 0 : shorter < 5 ? 1 : 2;
  return Math.abs(a.length - b.length) <= slips && distance(a, b) <= slips;
}

/** Which column stands at each position, and whether all stand that every row needs. A name that is nearly ours is an error; one that is not ours is left out, and said. */
export function readHeader(header: Line, columns: readonly Column[]): { at: (Column | null)[]; problems: Problem[]; whole: boolean } {
  const byName = new Map(columns.map((c) => [c.header, c]));
  const problems: Problem[] = [];
  const seen = new Map<string, string>();
  const tell = (column: string, message: string, severity: Problem['severity'] = 'error') =>
    problems.push({ line: header.line, column, value: '', message, severity });
  const at = header.cells.map((cell) => {
    const name = plain(cell);
    const column = byName.get(name);
    if (!column) {
      if (name === '') return null;
      const meant = columns.find((c) => near(c.header, name));
      if (meant) tell(cell.trim(), `No column has this name. If ${meant.header} is meant, write that.`);
      else tell(cell.trim(), 'Not one of our columns; it is left out.', 'note');
      return null;
    }
    const earlier = seen.get(column.field);
    if (earlier)
      tell(name, earlier === name ? 'This column stands twice. Keep one.' : `${earlier} gives the same thing. Keep one of the two.`);
    seen.set(column.field, name);
    return earlier ? null : column;
  });
  const missing = columns.filter((c) => c.required && !seen.has(c.field)).map((c) => c.header);
  if (missing.length === columns.filter((c) => c.required).length)
    tell('', `The first line must hold the column names; none of ours is there. At least ${missing.join(', ')}.`);
  else for (const name of missing) tell(name, 'This column is missing and every row needs it.');
  return { at, problems, whole: missing.length === 0 };
}
