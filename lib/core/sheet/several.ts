import type { SheetRow } from './rows';
import type { Question, SheetChoices } from './types';
import { kindOf, SAYS_NOTHING } from './vocabulary';

/** More in one row is a slip, not a number of units. */
const MOST = 12;
const BETWEEN = /\s+[/&+]\s+|\s*;\s*|\s+and\s+/i;
const LISTED = /\s+[/&+]\s+|\s*[;,]\s*|\s+and\s+/i;
const TIMES = [
  /^\(?(\d{1,2})\)?\s*[x×]\s+(.+)$/i,
  /^\((\d{1,2})\)\s*(.+)$/,
  /^(.+?)\s+\(?[x×]\s?(\d{1,2})\)?$/i,
  /^(.+?)\s+\((\d{1,2})\)$/,
] as const;

const piecesOf = (text: string | undefined): string[] => (text ? text.split(/\s*[/,;&+]\s*|\s+and\s+/i).filter(Boolean) : []);

/** "2x reach-in", "(2) reach-in", "Reach-in x2": how many, and of what. */
function counted(text: string): { n: number; what: string } | null {
  for (const form of TIMES) {
    const m = form.exec(text);
    if (!m) continue;
    const [a = '', b = ''] = [m[1], m[2]];
    const [n, what] = /^\d+$/.test(a) ? [Number(a), b] : [Number(b), a];
    if (n >= 2 && n <= MOST && kindOf(what)) return { n, what };
  }
  return null;
}

/** "Reach-in (2), prep table, 1 walk-in": each of them. Commas alone also part a name's own words, "reach-in, 2 doors". */
function listed(text: string): string[] {
  const each = text.split(BETWEEN).filter(Boolean);
  const parts = text.split(LISTED).filter(Boolean);
  const kinds = parts.map(kindOf);
  const units = kinds.every((kind) => kind !== null) && (parts.length > 2 || new Set(kinds).size > 1) ? parts : each;
  if (units.length < 2 || units.some((t) => kindOf(t) === null)) return [];
  return units.flatMap((t) => {
    const said = counted(t) ?? countedBefore(t);
    return said ? Array.from({ length: said.n }, () => said.what) : [t];
  });
}

/** "2 reach-ins" in a list. Alone in a cell a number before a name may be its own: "2 door reach-in". */
function countedBefore(text: string): { n: number; what: string } | null {
  const m = /^(\d{1,2})\s+(?!door|dr\b|drawer|section|glass|pan)(.+)$/i.exec(text);
  const n = Number(m?.[1]);
  return m && n >= 1 && n <= MOST && kindOf(m[2] ?? '') ? { n, what: n === 1 ? (m[2] ?? '') : (m[2] ?? '').replace(/s$/i, '') } : null;
}

/** The units that a row holds: of several kinds in one cell, or a number of one kind. A single one for most. */
function unitsIn({ cells: c }: SheetRow): string[] {
  const text = c.unit ?? c.kind ?? '';
  const each = listed(text);
  if (each.length > 1 && each.length <= MOST) return each;
  const said = counted(text);
  const n = said?.n ?? Number(c.count);
  return Number.isInteger(n) && n >= 2 && n <= MOST ? Array.from({ length: n }, () => said?.what ?? text) : [text];
}

/** Asked once where rows hold several units. */
export function severalQuestion(rows: readonly SheetRow[], { answers }: SheetChoices): Question[] {
  const some = rows.filter((r) => unitsIn(r).length > 1);
  if (some.length === 0) return [];
  const examples = [...new Set(some.map((r) => [r.cells.unit ?? r.cells.kind, r.cells.count].filter(Boolean).join(', ')))].slice(0, 3);
  return [
    {
      id: 'several',
      text: 'Rows that name more than one unit',
      rows: some.length,
      examples,
      options: [
        { value: 'each', label: 'A unit of its own for each' },
        { value: 'one', label: 'One unit a row, as written' },
      ],
      answer: answers.several ?? '',
      open: !answers.several,
    },
  ];
}

/**
 * A row of its own for each unit where that was chosen. Tags and serials go to their units where there are as many of them;
 * else they stand in the notes of each, since nobody can tell whose they are.
 */
export function eachItsRow(rows: readonly SheetRow[], { answers }: SheetChoices): SheetRow[] {
  if (answers.several !== 'each') return [...rows];
  return rows.flatMap((row) => {
    const units = unitsIn(row);
    if (units.length < 2) return [row];
    return units.map((name, i) => {
      const cells = { ...row.cells, [row.cells.unit === undefined ? 'kind' : 'unit']: name };
      const notes = [...row.notes];
      // A kind of its own beside two names would be that of one of them.
      if (row.cells.unit !== undefined && new Set(units).size > 1) delete cells.kind;
      for (const [key, label] of [['serial', 'Serial'], ['tag', 'Tag']] as const) {
        const said = row.cells[key];
        if (!said || SAYS_NOTHING.test(said)) continue;
        const pieces = piecesOf(said);
        if (pieces.length === units.length) cells[key] = pieces[i] ?? '';
        else {
          delete cells[key];
          notes.push(`${label} in the sheet, for ${units.length} units: ${said}`);
        }
      } // prettier-ignore
      return { ...row, cells, notes };
    });
  });
}
