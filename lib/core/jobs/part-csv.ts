/** The shop's list of parts as lines of a file: what each column says, and what is wrong with a line. */

export const PART_COLUMNS = ['number', 'name', 'price', 'in van', 'in shop', 'warranty months'] as const;
type Column = (typeof PART_COLUMNS)[number];

/** A column for each van: "van of Tova Lind". */
export const VAN_COLUMN = 'van of ';

/** Counts whose column is missing are not said, so they stay as they are. */
export type PartRow = {
  number: string;
  name: string;
  priceCents: number;
  inVan?: number;
  inShop?: number;
  warrantyMonths?: number | null;
  vans: { technicianId: string; pieces: number }[];
};
export type PartProblem = { line: number; column: string; message: string };

const MOST_CENTS = 100_000_000;
const MOST_PIECES = 100_000;

const whole = (text: string): number | null => (/^\d{1,6}$/.test(text) && Number(text) <= MOST_PIECES ? Number(text) : null);

function cents(text: string): number | null {
  const [, units = '', parts = ''] = /^(\d{1,7})(?:[.,](\d{1,2}))?$/.exec(text.replace(/^[$€£]\s*/, '')) ?? [];
  if (units === '') return null;
  const value = Number(units) * 100 + Number(parts.padEnd(2, '0'));
  return value <= MOST_CENTS ? value : null;
}

/**
 * Reads the lines of a file whose first names the columns, in any order; `number`, `name` and `price` must be among them.
 * Either every line is good, or the problems are told and no rows.
 */
export function readParts(
  lines: readonly { line: number; cells: readonly string[] }[],
  technicians: readonly { id: string; name: string }[] = [],
): { rows: PartRow[]; problems: PartProblem[] } {
  const [head, ...body] = lines;
  const names = (head?.cells ?? []).map((c) => c.trim().toLowerCase());
  const at = (column: Column) => names.indexOf(column);
  const problems: PartProblem[] = (['number', 'name', 'price'] as const)
    .filter((c) => at(c) < 0)
    .map((column) => ({ line: head?.line ?? 1, column, message: 'This column is missing.' }));
  const vans = names.flatMap((name, index) => {
    if (!name.startsWith(VAN_COLUMN)) return [];
    const called = technicians.filter((t) => name.slice(VAN_COLUMN.length).trim() === t.name.toLowerCase());
    const [whose] = called;
    if (called.length === 1 && whose) return [{ technicianId: whose.id, index, name }];
    const message = called.length === 0 ? 'No technician is called so.' : 'More than one technician is called so.';
    problems.push({ line: head?.line ?? 1, column: name, message });
    return [];
  });
  if (problems.length > 0) return { rows: [], problems };
  const seen = new Set<string>();
  const rows = body.map(({ line, cells }): PartRow => {
    const cell = (c: Column) => (at(c) < 0 ? '' : (cells[at(c)] ?? '').trim());
    const tell = (column: string, message: string) => void problems.push({ line, column, message });
    const pieces = (column: string, text: string) => {
      const n = text === '' ? 0 : whole(text);
      if (n === null) tell(column, `“${text}” is not a whole number of pieces.`);
      return n ?? 0;
    };
    const count = (c: Column) => (at(c) < 0 ? undefined : pieces(c, cell(c)));
    const [number, name, price, months] = [cell('number'), cell('name'), cents(cell('price')), cell('warranty months')];
    if (number === '' || number.length > 60) tell('number', 'Every part has a number of at most 60 characters.');
    if (seen.has(number)) tell('number', `“${number}” stands here twice.`);
    seen.add(number);
    if (name === '' || name.length > 200) tell('name', 'Every part has a name of at most 200 characters.');
    if (price === null) tell('price', `“${cell('price')}” is not a price like 64.95.`);
    if (months !== '' && whole(months) === null) tell('warranty months', `“${months}” is not a whole number of months.`);
    return {
      number,
      name,
      priceCents: price ?? 0,
      inVan: count('in van'),
      inShop: count('in shop'),
      warrantyMonths: at('warranty months') < 0 ? undefined : months === '' ? null : whole(months),
      vans: vans.map((v) => ({ technicianId: v.technicianId, pieces: pieces(v.name, (cells[v.index] ?? '').trim()) })),
    };
  });
  return problems.length > 0 ? { rows: [], problems } : { rows, problems };
}
