import { monthNamed } from '../calendar/read-date';
import type { Table } from './find-table';
import { TARGETS } from './targets';
import { kindOf } from './vocabulary';

const isName = (header: string) => TARGETS.some((t) => t.header.test(header.toLowerCase().trim()));
const MARK = /^(x+|y|yes|✓|✔|☑|•|\*|ok|done)$/i;
const filledIn = (table: Table, at: number) => table.body.map((r) => r.cells[at] ?? '').filter((c) => c !== '');

/** Columns that are left, and what each row has beside them. */
function without(table: Table, taken: ReadonlySet<number>, more: readonly string[], rest: (cells: readonly string[]) => string[][]): Table {
  const keep = <T>(list: readonly T[]) => list.filter((_, i) => !taken.has(i));
  return {
    ...table,
    headers: [...keep(table.headers), ...more],
    body: table.body.flatMap(({ line, cells }) => rest(cells).map((own) => ({ line, cells: [...keep(cells), ...own] }))),
  };
}

/**
 * A list with a column for each kind of unit and how many of it there are, as one row for each kind. "Reach-ins: 3" is a row of three
 * reach-ins; a mark stands for one.
 */
export function kindsAsRows(table: Table): Table {
  const kinds = table.headers.flatMap((name, i) => (!isName(name) && kindOf(name) !== null ? [i] : []));
  const counts = kinds.filter((i) => {
    const cells = filledIn(table, i);
    return cells.length > 0 && cells.every((c) => /^\d{1,2}$/.test(c) || MARK.test(c) || /^[-–—]$/.test(c));
  });
  if (counts.length < 2) return table;
  return without(table, new Set(counts), ['Unit', 'Qty'], (cells) => {
    const own = counts.flatMap((i) => {
      const cell = cells[i] ?? '';
      const n = MARK.test(cell) ? 1 : Number(cell);
      return n >= 1 ? [[(table.headers[i] ?? '').replace(/s$/i, ''), String(n)]] : [];
    });
    return own.length > 0 ? own : [['', '']];
  });
}

/** What the one column of them is called, and known by (months in TARGETS). */
const MARKED_MONTHS = 'Marked months';
const monthOf = (header: string): number => monthNamed(/^([a-z]+)\.?(?:[\s'’-]*\d{2,4})?$/i.exec(header.trim())?.[1] ?? '');
/** Names of fewer months are columns of something else. */
const LEAST_MONTHS = 6;

/** A calendar with a column for each month and marks in them, as one column that names the months marked: "Jan, Apr". */
export function monthsAsOne(table: Table): Table {
  const at = table.headers.flatMap((name, i) => (monthOf(name) > 0 ? [i] : []));
  if (new Set(at.map((i) => monthOf(table.headers[i] ?? ''))).size < LEAST_MONTHS) return table;
  return without(table, new Set(at), [MARKED_MONTHS], (cells) => [
    [
      at
        .filter((i) => (cells[i] ?? '') !== '')
        .map((i) => `${table.headers[i] ?? ''}${MARK.test(cells[i] ?? '') ? '' : ` ${cells[i] ?? ''}`}`)
        .join(', '),
    ],
  ]);
}

/** Months of a cell that monthsAsOne wrote, from 1. */
export const monthsIn = (cell: string): number[] => [
  ...new Set(cell.split(', ').flatMap((piece) => monthNamed(/^[a-z]+/i.exec(piece)?.[0] ?? '') || [])),
];
