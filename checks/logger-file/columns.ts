import { fahrenheitToKelvin, celsiusToKelvin, kilopascalToPascal, PSI_PA } from '../../lib/core/measures';

/** What a data logger's file may hold. Pressures and temperatures carry their unit as a suffix. */
export type Quantity = 'head' | 'suction' | 'airIn' | 'liquid' | 'suctionLine' | 'discharge' | 'altitude';
export type TextField = 'unit' | 'timestamp' | 'refrigerant' | 'state';

export type Column =
  | { kind: 'text'; field: TextField }
  /** `toSI` gives Pa or K or m; gauge pressures still need the atmosphere added. */
  | { kind: 'number'; field: Quantity; gauge: boolean; toSI: (x: number) => number };

const temperature = (field: Quantity, name: string): [string, Column][] => [
  [`${name}_f`, { kind: 'number', field, gauge: false, toSI: fahrenheitToKelvin }],
  [`${name}_c`, { kind: 'number', field, gauge: false, toSI: celsiusToKelvin }],
];
const pressure = (field: Quantity, name: string): [string, Column][] => [
  [`${name}_psig`, { kind: 'number', field, gauge: true, toSI: (x) => x * PSI_PA }],
  [`${name}_kpa_abs`, { kind: 'number', field, gauge: false, toSI: kilopascalToPascal }],
];
const text = (field: TextField): [string, Column] => [field, { kind: 'text', field }];

const COLUMNS = new Map<string, Column>([
  text('unit'),
  text('timestamp'),
  text('refrigerant'),
  text('state'),
  ...pressure('head', 'head'),
  ...pressure('suction', 'suction'),
  ...temperature('airIn', 'air_in'),
  ...temperature('liquid', 'liquid'),
  ...temperature('suctionLine', 'suction_line'),
  ...temperature('discharge', 'discharge'),
  ['altitude_ft', { kind: 'number', field: 'altitude', gauge: false, toSI: (x) => x * 0.3048 }],
  ['altitude_m', { kind: 'number', field: 'altitude', gauge: false, toSI: (x) => x }],
]);

export const COLUMN_NAMES: readonly string[] = [...COLUMNS.keys()];

export type Header = { columns: (Column | null)[]; names: string[]; unknown: string[]; missing: string[] };

/** Reads a header row: which columns are known, which are not, and which that are needed are missing. */
export function readHeader(cells: readonly string[]): Header {
  const names = cells.map((c) =>
    c
      .replace(/^\uFEFF/, '')
      .trim()
      .toLowerCase(),
  );
  const columns = names.map((n) => COLUMNS.get(n) ?? null);
  const unknown = names.filter((n, i) => columns[i] === null && n !== '');
  const has = (field: Quantity | TextField) => columns.some((c) => c?.field === field);
  const missing: string[] = [];
  if (!has('refrigerant')) missing.push('refrigerant');
  if (!has('head')) missing.push('head_psig or head_kpa_abs');
  if (!has('airIn')) missing.push('air_in_f or air_in_c');
  return { columns, names, unknown, missing };
}
