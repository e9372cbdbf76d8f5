import { monthNamed, readDate } from '../calendar/read-date';
import { findTable, likelySheet, type Table } from './find-table';
import { guessColumns, targetOf } from './targets';
import type { RawSheet } from './types';

/** Choice of a workbook's sheet: all of its tabs that have the same columns. */
export const ALL_TABS = -1;

/** The column that the names of tabs stand in, in front of their own. */
const TAB = 'Tab';

const plain = (name: string) => name.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '');
const namesOf = (table: Table) => new Set(table.headers.map(plain).filter(Boolean));

/** Shared column names over all of both. */
function alikeness(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  const shared = [...a].filter((name) => b.has(name)).length;
  return shared === 0 ? 0 : shared / (a.size + b.size - shared);
}
const SAME_FORM = 0.6;

/** "2026", "Jan", "March 2026", "Week 12": the same list kept over time, and no customers. */
const isTime = (name: string) =>
  /^(19|20)\d{2}$|^(q|w|wk|week|quarter) ?\d{1,2}\b/i.test(name.trim()) ||
  monthNamed(/^([a-z]+)\.? ?\d{0,4}$/i.exec(name.trim())?.[1] ?? '') > 0 ||
  readDate(name, 'month first') !== null;

const ADDRESS = targetOf('address')?.values;
/** The first of some texts that is a street's. */
export const addressIn = (texts: readonly string[]): string => texts.find((text) => ADDRESS?.test(text.trim())) ?? '';

export type Together = {
  /** The tabs under each other, each row with the name of its tab in front. */
  sheet: RawSheet;
  tabs: string[];
  /** What was left out of them. */
  dropped: Table['dropped'];
  /** Each tab is a customer's: none of their columns names one. */
  customers: boolean;
};

/** Tabs of a workbook that have the same columns, as one sheet; null where fewer than two have. */
export function together(sheets: readonly RawSheet[]): Together | null {
  if (sheets.length < 2) return null;
  const tables = sheets.map((sheet) => ({ sheet, table: findTable(sheet) }));
  const lead = tables[likelySheet(sheets)]?.table;
  if (!lead) return null;
  const form = namesOf(lead);
  const alike = tables.filter(({ table }) => table.body.length > 0 && form.size > 1 && alikeness(namesOf(table), form) >= SAME_FORM);
  if (alike.length < 2) return null;
  const headers = lead.headers.filter((name) => !name.endsWith('(heading row)'));
  for (const { table } of alike)
    for (const name of table.headers) if (name && !headers.some((h) => plain(h) === plain(name))) headers.push(name);
  const above = alike.map(({ table }) => addressIn(table.above));
  const rows = alike.flatMap(({ sheet, table }, i) => {
    const at = headers.map((name) => table.headers.findIndex((h) => name !== '' && plain(h) === plain(name)));
    return table.body.map(({ cells }) => [sheet.name, ...at.map((c) => cells[c] ?? ''), above[i] ?? '']);
  });
  const columns = headers.map((_, i) => rows.map((r) => r[i + 1] ?? ''));
  const names = new Set(guessColumns(headers, columns));
  // What stands over the table of a tab is its kitchen's, where no column says it.
  const withAddress = !names.has('address') && above.some((a) => a !== '');
  const width = headers.length + (withAddress ? 2 : 1);
  const tabs = alike.map(({ sheet }) => sheet.name);
  const customers = !names.has('customer') && !names.has('kitchen') && tabs.filter(isTime).length < tabs.length / 2;
  return {
    sheet: { name: '', rows: [[TAB, ...headers, 'Address'], ...rows].map((cells) => cells.slice(0, width)) },
    tabs,
    dropped: alike.flatMap(({ table }) => table.dropped),
    customers,
  };
}
