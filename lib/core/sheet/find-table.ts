import { readDate } from '../calendar/read-date';
import { plainMarks } from '../wording/plain-text';
import type { RawSheet } from './types';
import { TARGETS } from './targets';
import { kindOf } from './vocabulary';

export type Table = {
  headers: string[];
  /** Number of the header row as the sheet counts, from 1. */
  headerLine: number;
  /** What stands over the names of the columns, cell by cell. */
  above: string[];
  body: { line: number; cells: string[] }[];
  /** Rows that are no unit's, with why. */
  dropped: { line: number; text: string; why: 'total' | 'header again' | 'heading' | 'too little' }[];
};

/** Lines of a cell that are a unit each stay apart; of others the break is a space. Hyphens and blanks are those of a keyboard. */
function inOneLine(cell: string): string {
  const lines = plainMarks(cell)
    .split(/\r?\n/)
    .flatMap((l) => l.replace(/\s+/g, ' ').trim() || []);
  return lines.join(lines.length > 1 && lines.every((l) => l.length < 30 && kindOf(l) !== null) ? ' / ' : ' ');
}

/** Written for "as in the row above". */
const SAME = /^("|''|”|“|〃|[-–—]\s*["”]\s*[-–—]|ditto|do\.|same( as above)?|as above)$/i;
/** Rows in which something was written as the same as above, with what that is. */
export function sameAsAbove(body: readonly Table['body'][number][]): { body: Table['body']; rows: Map<number, string> } {
  let above: readonly string[] = [];
  const rows = new Map<number, string>();
  const out = body.map(({ line, cells }) => {
    const filled = cells.map((c, i) => (SAME.test(c) ? (above[i] ?? '') : c));
    const first = cells.findIndex((c) => SAME.test(c));
    if (first >= 0) rows.set(line, filled[first] ?? '');
    above = filled;
    return { line, cells: filled };
  });
  return { body: out, rows };
}

const LOOK_FOR_HEADER_IN = 40;
const TOTAL = /^(grand |sub.?)?total\b|^(count|sum)\b|^end of (list|report)|^page \d/i;
const said = (cells: readonly string[]) => cells.filter((c) => c !== '');
const names = (cells: readonly string[]) =>
  cells.filter((c) => c.length < 40 && TARGETS.some((t) => t.header.test(c.toLowerCase().trim()))).length;

/** The row of column names: the one with most names we know, where titles and blank rows may come first. */
function headerRow(rows: readonly (readonly string[])[]): number {
  let best = { at: 0, score: 0 };
  rows.slice(0, LOOK_FOR_HEADER_IN).forEach((cells, at) => {
    const filled = said(cells);
    const digits = filled.filter((c) => /^\d/.test(c)).length;
    const score = filled.length < 2 ? 0 : names(filled) * 2 + filled.length * 0.1 - digits;
    if (score > best.score) best = { at, score };
  });
  return best.at;
}

/** What stands under names, and is none: a street, a refrigerant, a day, a telephone, an address of e-mail. */
const VALUES = TARGETS.flatMap((t) => (t.values && t.key !== 'charge' ? [t.values] : []));
const isValue = (cell: string) => VALUES.some((form) => form.test(cell)) || (/\d/.test(cell) && readDate(cell, 'month first') !== null);
/** A row that could pass for names only because the sheet has none. */
const isData = (cells: readonly string[]): boolean => {
  const named = names(said(cells));
  const values = said(cells).filter(isValue).length;
  return (values >= 2 && values > named) || (named === 0 && said(cells).some((c) => isValue(c) || kindOf(c) !== null));
};

/** The sheet of a file that holds the units: the one whose header says most, weighed by its rows. */
export function likelySheet(sheets: readonly RawSheet[]): number {
  const scores = sheets.map(({ rows }) => names(said(rows[headerRow(rows)] ?? [])) * Math.log2(2 + rows.length));
  return scores.indexOf(Math.max(0, ...scores)) < 0 ? 0 : scores.indexOf(Math.max(...scores));
}

/**
 * A sheet's table: its column names, the rows under them, and what was left out. A row with one value only, over rows that
 * name no customer, is a heading: its text goes into a column of its own in front.
 */
export function findTable({ rows: raw }: RawSheet): Table {
  const rows = raw.map((cells) => cells.map(inOneLine));
  const likely = headerRow(rows);
  const named = !isData(rows[likely] ?? []);
  const at = named ? likely : -1;
  const headers = named ? [...(rows[likely] ?? [])] : [];
  const width = Math.max(headers.length, ...rows.slice(at + 1).map((r) => r.length));
  while (headers.length < width) headers.push('');
  const again = headers.join('\n').toLowerCase();
  const table: Table = { headers, headerLine: at + 1, above: rows.slice(0, Math.max(0, at)).flatMap(said), body: [], dropped: [] };
  const headings: { before: number; text: string }[] = [];
  rows.slice(at + 1).forEach((cells, i) => {
    const line = at + 2 + i;
    const filled = said(cells);
    if (filled.length === 0) return;
    const whole = Array.from({ length: width }, (_, c) => cells[c] ?? '');
    const drop = (why: Table['dropped'][number]['why']) => table.dropped.push({ line, text: filled.join(' · ').slice(0, 80), why });
    if (named && whole.join('\n').toLowerCase() === again) drop('header again');
    else if (TOTAL.test(filled[0] ?? '') || (filled.length <= 3 && filled.some((c) => TOTAL.test(c)))) drop('total');
    else if (filled.length === 1 && width > 3 && cells.findIndex((c) => c !== '') === 0) {
      headings.push({ before: table.body.length, text: filled[0] ?? '' });
    } else table.body.push({ line, cells: whole });
  });
  return withHeadings(table, headings);
}

function withHeadings(table: Table, headings: readonly { before: number; text: string }[]): Table {
  const under = headings.filter((h) => h.before < table.body.length);
  const first = headings[0];
  // One at the very end, or a single one far down, is a remark.
  if (!first || under.length < 2 || first.before > 0 || customersOf(table) > 0.5) {
    headings.forEach((h) =>
      table.dropped.push({
        line: (table.body[h.before]?.line ?? table.body[table.body.length - 1]?.line ?? 0) + 0,
        text: h.text,
        why: 'too little',
      }),
    );
    return table;
  }
  const textFor = (i: number) => under.filter((h) => h.before <= i).at(-1)?.text ?? '';
  return {
    ...table,
    headers: ['Customer (heading row)', ...table.headers],
    body: table.body.map((row, i) => ({ line: row.line, cells: [textFor(i), ...row.cells] })),
  };
}

/** Share of rows whose customer column, if there is one, is filled. */
function customersOf({ headers, body }: Table): number {
  const at = headers.findIndex((h) => /^(customers?|clients?|accounts?|company|restaurants?)\b/i.test(h));
  return at < 0 || body.length === 0 ? 0 : body.filter((r) => r.cells[at] !== '').length / body.length;
}
