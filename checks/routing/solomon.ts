import { InstanceError, numberAt } from './parse-error';

/** A vehicle routing instance with time windows. Row 0 is the depot; distance and time share one unit. */
export interface VrptwInstance {
  readonly name: string;
  readonly vehicles?: number;
  readonly capacity?: number;
  readonly rows: readonly VrptwRow[];
}

export interface VrptwRow {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly demand: number;
  readonly ready: number;
  readonly due: number;
  readonly service: number;
}

const COLUMNS = ['id', 'x', 'y', 'demand', 'ready', 'due', 'service'] as const;

/**
 * Reads the comma-separated form (columns id,x,y,demand,ready,due,service; a header is
 * required, its order is free) or the classic text form with VEHICLE and CUSTOMER sections.
 * @throws InstanceError naming the line that cannot be read.
 */
export function parseSolomon(text: string): VrptwInstance {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  if (!lines.some((line) => line.trim() !== '')) throw new InstanceError('The file is empty.');
  const instance = lines.some((line) => /^\s*CUST(OMER)?\b/i.test(line)) ? parseClassic(lines) : parseTable(lines);
  check(instance);
  return instance;
}

function parseTable(lines: readonly string[]): VrptwInstance {
  const headerAt = lines.findIndex((line) => line.trim() !== '');
  const split = (line: string): string[] => line.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, ''));
  const header = split(lines[headerAt]!).map((cell) => cell.toLowerCase());
  const at = COLUMNS.map((column) => {
    const index = header.indexOf(column);
    if (index < 0) throw new InstanceError(`column "${column}" is missing; the header must name ${COLUMNS.join(',')}.`, headerAt + 1);
    return index;
  });
  const rows: VrptwRow[] = [];
  lines.forEach((line, i) => {
    if (i <= headerAt || line.trim() === '') return;
    const cells = split(line);
    if (cells.length < header.length) throw new InstanceError(`${cells.length} columns where ${header.length} are expected.`, i + 1);
    rows.push(
      rowFrom(
        at.map((index) => cells[index]),
        i + 1,
      ),
    );
  });
  return { name: '', rows };
}

function parseClassic(lines: readonly string[]): VrptwInstance {
  const name = lines.find((line) => line.trim() !== '')!.trim();
  const rows: VrptwRow[] = [];
  let vehicles: number | undefined;
  let capacity: number | undefined;
  let section = '';
  lines.forEach((line, i) => {
    const trimmed = line.trim();
    if (/^VEHICLE/i.test(trimmed)) section = 'vehicle';
    else if (/^CUST(OMER)?\b/i.test(trimmed)) section = 'customer';
    else if (/^[-+.\d]/.test(trimmed) && section !== '') {
      const cells = trimmed.split(/[\s,]+/);
      if (section === 'vehicle') {
        vehicles = numberAt(cells[0], 'the number of vehicles', i + 1);
        capacity = numberAt(cells[1], 'the capacity', i + 1);
        section = '';
      } else {
        if (cells.length !== 7) throw new InstanceError(`${cells.length} numbers where 7 are expected.`, i + 1);
        rows.push(rowFrom(cells, i + 1));
      }
    }
  });
  return { name, vehicles, capacity, rows };
}

function rowFrom(cells: readonly (string | undefined)[], line: number): VrptwRow {
  const id = cells[0] ?? '';
  const [x, y, demand, ready, due, service] = COLUMNS.slice(1).map((column, i) => numberAt(cells[i + 1], column, line)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (due < ready) throw new InstanceError(`the window of ${id} ends (${due}) before it begins (${ready}).`, line);
  if (demand < 0) throw new InstanceError(`the demand of ${id} is below zero.`, line);
  if (service < 0) throw new InstanceError(`the service time of ${id} is below zero.`, line);
  return { id, x, y, demand, ready, due, service };
}

function check(instance: VrptwInstance): void {
  if (instance.rows.length === 0) throw new InstanceError('There are no rows: a depot and at least one customer are needed.');
  if (instance.rows.length === 1) throw new InstanceError('There is a depot but no customer.');
  const seen = new Set<string>();
  for (const { id } of instance.rows) {
    if (seen.has(id)) throw new InstanceError(`Two rows have the id ${id}.`);
    seen.add(id);
  }
  for (const [what, value] of [
    ['number of vehicles', instance.vehicles],
    ['capacity', instance.capacity],
  ] as const)
    if (value !== undefined && !(value > 0)) throw new InstanceError(`The ${what} must be above zero.`);
}
