import { InstanceError, numberAt } from './parse-error';
import { DISTANCES, type Point } from './tsplib-distance';

export interface TourInstance {
  readonly name: string;
  /** Names of the places, as the file numbers them. */
  readonly ids: readonly string[];
  /** Row-major, from row to column. */
  readonly matrix: Float64Array;
  readonly symmetric: boolean;
}

/** Positions a matrix format lists, in its order. */
const FORMATS: Readonly<Record<string, (n: number) => Iterable<readonly [number, number]>>> = {
  FULL_MATRIX: (n) =>
    cells(
      n,
      () => 0,
      () => n,
    ),
  UPPER_ROW: (n) =>
    cells(
      n,
      (i) => i + 1,
      () => n,
    ),
  LOWER_ROW: (n) =>
    cells(
      n,
      () => 0,
      (i) => i,
    ),
  UPPER_DIAG_ROW: (n) =>
    cells(
      n,
      (i) => i,
      () => n,
    ),
  LOWER_DIAG_ROW: (n) =>
    cells(
      n,
      () => 0,
      (i) => i + 1,
    ),
  // Column-wise upper triangles list the same cells as row-wise lower ones, mirrored.
  UPPER_COL: (n) =>
    cells(
      n,
      () => 0,
      (i) => i,
    ),
  LOWER_COL: (n) =>
    cells(
      n,
      (i) => i + 1,
      () => n,
    ),
  UPPER_DIAG_COL: (n) =>
    cells(
      n,
      () => 0,
      (i) => i + 1,
    ),
  LOWER_DIAG_COL: (n) =>
    cells(
      n,
      (i) => i,
      () => n,
    ),
};

function* cells(n: number, from: (row: number) => number, to: (row: number) => number): Iterable<readonly [number, number]> {
  for (let i = 0; i < n; i++) for (let j = from(i); j < to(i); j++) yield [i, j];
}

/** Does a file look like TSPLIB rather than a table? */
export function looksLikeTsplib(text: string): boolean {
  return /^\s*(NAME|TYPE|DIMENSION|EDGE_WEIGHT_TYPE)\s*:/m.test(text);
}

/**
 * Reads a TSPLIB file of type TSP or ATSP, with coordinates or an explicit matrix.
 * @throws InstanceError saying what is missing or where a number is not one.
 */
export function parseTsplib(text: string): TourInstance {
  const keys = new Map<string, string>();
  const sections = new Map<string, { cells: string[]; line: number }>();
  let section: { cells: string[]; line: number } | null = null;
  text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .forEach((raw, i) => {
      const line = raw.trim();
      if (line === '' || line === 'EOF') return;
      const named = /^([A-Z_0-9]*[A-Z][A-Z_0-9]*)\s*(?::\s*(.*))?$/.exec(line);
      if (named && /_SECTION$/.test(named[1]!)) sections.set(named[1]!, (section = { cells: [], line: i + 1 }));
      else if (named && named[2] !== undefined) {
        section = null;
        keys.set(named[1]!, named[2].trim());
      } else if (section) section.cells.push(...line.split(/\s+/));
      else throw new InstanceError(`"${line}" belongs to no section.`, i + 1);
    });
  const type = (keys.get('TYPE') ?? 'TSP').split(/\s/)[0]!;
  if (type !== 'TSP' && type !== 'ATSP') throw new InstanceError(`TYPE is ${type}; only TSP and ATSP files are read.`);
  const n = numberAt(keys.get('DIMENSION'), 'DIMENSION', 1);
  if (!Number.isInteger(n) || n < 2) throw new InstanceError(`DIMENSION is ${n}; a whole number from 2 up is needed.`);
  const kind = keys.get('EDGE_WEIGHT_TYPE');
  if (kind === undefined) throw new InstanceError('EDGE_WEIGHT_TYPE is missing.');
  const { matrix, ids } = kind === 'EXPLICIT' ? explicit(keys, sections, n, type) : fromPoints(kind, sections, n);
  let symmetric = true;
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) if (matrix[i * n + j] !== matrix[j * n + i]) symmetric = false;
  return { name: keys.get('NAME') ?? '', ids, matrix, symmetric };
}

type Sections = ReadonlyMap<string, { readonly cells: readonly string[]; readonly line: number }>;

function explicit(keys: ReadonlyMap<string, string>, sections: Sections, n: number, type: string): { matrix: Float64Array; ids: string[] } {
  const format = keys.get('EDGE_WEIGHT_FORMAT') ?? '';
  const order = FORMATS[format];
  if (!order) throw new InstanceError(`EDGE_WEIGHT_FORMAT "${format}" is not one of ${Object.keys(FORMATS).join(', ')}.`);
  const listed = sections.get('EDGE_WEIGHT_SECTION');
  if (!listed) throw new InstanceError('EDGE_WEIGHT_SECTION is missing.');
  const positions = [...order(n)];
  if (listed.cells.length !== positions.length)
    throw new InstanceError(
      `EDGE_WEIGHT_SECTION has ${listed.cells.length} numbers where ${format} of ${n} needs ${positions.length}.`,
      listed.line,
    );
  const matrix = new Float64Array(n * n);
  positions.forEach(([i, j], at) => {
    const value = numberAt(listed.cells[at], 'a weight', listed.line);
    if (value < 0) throw new InstanceError(`a weight is ${value}; distances cannot be below zero.`, listed.line);
    matrix[i * n + j] = value;
    if (format !== 'FULL_MATRIX' || type === 'TSP') matrix[j * n + i] = value;
  });
  for (let i = 0; i < n; i++) matrix[i * n + i] = 0;
  return { matrix, ids: Array.from({ length: n }, (_, i) => String(i + 1)) };
}

function fromPoints(kind: string, sections: Sections, n: number): { matrix: Float64Array; ids: string[] } {
  const distance = DISTANCES[kind];
  if (!distance) throw new InstanceError(`EDGE_WEIGHT_TYPE "${kind}" is not one of EXPLICIT, ${Object.keys(DISTANCES).join(', ')}.`);
  const listed = sections.get('NODE_COORD_SECTION');
  if (!listed) throw new InstanceError('NODE_COORD_SECTION is missing.');
  if (listed.cells.length !== 3 * n)
    throw new InstanceError(`NODE_COORD_SECTION has ${listed.cells.length / 3} places where DIMENSION says ${n}.`, listed.line);
  const ids: string[] = [];
  const points: Point[] = [];
  for (let i = 0; i < n; i++) {
    const id = listed.cells[3 * i]!;
    if (ids.includes(id)) throw new InstanceError(`place ${id} is listed twice.`, listed.line + 1 + i);
    ids.push(id);
    points.push([
      numberAt(listed.cells[3 * i + 1], `x of place ${id}`, listed.line + 1 + i),
      numberAt(listed.cells[3 * i + 2], `y of place ${id}`, listed.line + 1 + i),
    ]);
  }
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) if (i !== j) matrix[i * n + j] = distance(points[i]!, points[j]!);
  return { matrix, ids };
}
