import { atmosphereAt } from '../../lib/core/measures';
import { REFRIGERANTS } from '../../lib/core/refrigerants/api';
import type { Column, Header, Quantity, TextField } from './columns';

/** One row of a log, SI, pressures absolute; absent values undefined. */
export type LogRow = {
  /** Line in the file, the header being 1. */
  line: number;
  unit: string;
  timestamp: string;
  /** Minutes on some clock that only differences count on; NaN where the timestamp could not be read. */
  minute: number;
  refrigerant: string;
  state: 'clean' | 'dirty' | '';
  headPa?: number;
  suctionPa?: number;
  airInK?: number;
  liquidK?: number;
  suctionLineK?: number;
  dischargeK?: number;
};

export type Problem = { line: number; column?: string; message: string };
export type ReadRow = { row: LogRow | null; problems: Problem[] };

const BLANK = new Set(['', 'na', 'n/a', 'nan', 'null', '-']);

/** Turns one line's cells into a row. A row that cannot be read is null and its problems say where and why. */
export function readRow(header: Header, cells: readonly string[], line: number): ReadRow {
  const problems: Problem[] = [];
  const texts: Partial<Record<TextField, string>> = {};
  const numbers: Partial<Record<Quantity, { value: number; gauge: boolean }>> = {};
  if (cells.length !== header.columns.length)
    problems.push({ line, message: `${cells.length} cells where the header has ${header.columns.length}` });
  header.columns.forEach((column, i) => {
    const cell = (cells[i] ?? '').trim();
    if (!column || BLANK.has(cell.toLowerCase())) return;
    if (column.kind === 'text') texts[column.field] = cell;
    else readNumber(column, cell, header.names[i] ?? '', line, numbers, problems);
  });
  if (problems.length > 0) return { row: null, problems };
  const refrigerant = refrigerantId(texts.refrigerant);
  if (!refrigerant)
    return {
      row: null,
      problems: [
        {
          line,
          column: 'refrigerant',
          message: texts.refrigerant ? `unknown refrigerant "${texts.refrigerant}"` : 'no refrigerant',
        },
      ],
    };
  const atmosphere = atmosphereAt(numbers.altitude?.value ?? 0);
  if (Number.isNaN(atmosphere))
    return { row: null, problems: [{ line, column: 'altitude', message: 'altitude outside −2000 to 11000 m' }] };
  const pa = (q: Quantity) => {
    const n = numbers[q];
    return n && n.value + (n.gauge ? atmosphere : 0);
  };
  const state = (texts.state ?? '').toLowerCase();
  const knownState = state === 'clean' || state === 'dirty' || state === '';
  if (!knownState)
    problems.push({
      line,
      column: 'state',
      message: `state "${texts.state}" is neither clean nor dirty nor empty; taken as empty`,
    });
  const row: LogRow = {
    line,
    unit: texts.unit ?? '',
    timestamp: texts.timestamp ?? '',
    minute: minuteOf(texts.timestamp ?? ''),
    refrigerant,
    state: knownState ? state : '',
    headPa: pa('head'),
    suctionPa: pa('suction'),
    airInK: numbers.airIn?.value,
    liquidK: numbers.liquid?.value,
    suctionLineK: numbers.suctionLine?.value,
    dischargeK: numbers.discharge?.value,
  };
  return { row, problems };
}

function readNumber(
  column: Extract<Column, { kind: 'number' }>,
  cell: string,
  name: string,
  line: number,
  into: Partial<Record<Quantity, { value: number; gauge: boolean }>>,
  problems: Problem[],
): void {
  const raw = Number(cell);
  if (!Number.isFinite(raw)) problems.push({ line, column: name, message: `"${cell}" is not a number` });
  else into[column.field] ??= { value: column.toSI(raw), gauge: column.gauge };
}

const IDS = new Map(Object.keys(REFRIGERANTS).map((id) => [id.toLowerCase(), id]));

/** `R-404A`, `r404a`, `404A` and `R404A` all mean the same. */
function refrigerantId(text: string | undefined): string | undefined {
  const bare = (text ?? '').toLowerCase().replace(/[\s-]/g, '');
  return IDS.get(bare) ?? IDS.get(`r${bare}`);
}

/** `2017-08-27 13:15`, ISO with T, or `8/27/2017 13:15`, seconds and AM/PM allowed. */
export function minuteOf(text: string): number {
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ](\d{1,2}):(\d{2})(?::(\d{2}))?)?/.exec(text);
  if (iso) return clock([iso[1], iso[2], iso[3]], iso.slice(4));
  const us = /^(\d{1,2})\/(\d{1,2})\/(\d{2,4})(?:[ ,]+(\d{1,2}):(\d{2})(?::(\d{2}))?\s*([AaPp][Mm])?)?/.exec(text);
  if (!us) return NaN;
  const year = Number(us[3]) < 100 ? `20${us[3]}` : us[3];
  const half = us[7]?.toLowerCase();
  const hour = Number(us[4] ?? 0);
  const full = half === 'pm' && hour < 12 ? hour + 12 : half === 'am' && hour === 12 ? 0 : hour;
  return clock([year, us[1], us[2]], [String(full), us[5], us[6]]);
}

function clock(date: (string | undefined)[], time: (string | undefined)[]): number {
  const [y, m, d] = date.map(Number) as [number, number, number];
  const [h, min, s] = time.map((t) => Number(t ?? 0));
  return Date.UTC(y, m - 1, d, h ?? 0, min ?? 0, s ?? 0) / 60_000;
}
