import { alike, alikeStreet } from './names';
import type { Table } from './find-table';

/** A row of the sheet by what its columns are. `notes` gathers what has no place of its own, with its column's name. */
export type SheetRow = { line: number; cells: Record<string, string>; notes: string[] };

const KITCHEN_FIELDS = [
  'kitchen', 'address', 'town', 'state', 'zip', 'position', 'lat', 'lng', 'contact_name', 'contact_phone', 'contact_email', 'service_hours', 'access_notes',
  'energy_price_per_kwh',
]; // prettier-ignore

export function rowsOf({ body, headers }: Table, targets: readonly string[]): SheetRow[] {
  return body.map(({ line, cells }) => {
    const row: SheetRow = { line, cells: {}, notes: [] };
    targets.forEach((target, i) => {
      const text = cells[i] ?? '';
      if (text === '' || target === 'leave') return;
      if (target === 'notes')
        row.notes.push(/^(notes?|comments?|remarks?)$/i.test(headers[i] ?? '') || headers[i] === '' ? text : `${headers[i]}: ${text}`);
      else row.cells[target] = row.cells[target] ? `${row.cells[target]}, ${text}` : text;
    });
    return row;
  });
}

const ALIKE = { customer: alike, kitchen: alike, address: alikeStreet } as const;

/** Cells merged over several rows are filled in the first only: a row without a customer belongs to the one above. */
export function filledDown(rows: readonly SheetRow[]): { rows: SheetRow[]; filled: number } {
  const lead = rows.some((r) => r.cells.customer) ? 'customer' : rows.some((r) => r.cells.kitchen) ? 'kitchen' : 'address';
  let above: Record<string, string> = {};
  let filled = 0;
  const out = rows.map((row) => {
    const own = row.cells[lead];
    const same = own !== undefined && above[lead] !== undefined && ALIKE[lead](own) === ALIKE[lead](above[lead]);
    if (own !== undefined && !same) above = {};
    const starts = KITCHEN_FIELDS.some((f) => row.cells[f] && f !== lead);
    // A new address under the same customer is another kitchen: nothing of the one above goes down to it.
    const moved = (['kitchen', 'address'] as const).some((f) => row.cells[f] && above[f] && ALIKE[f](row.cells[f]) !== ALIKE[f](above[f]));
    if (moved) above = { [lead]: own ?? above[lead] ?? '' };
    if (own === undefined && above[lead]) filled++;
    const cells = { ...(own === undefined || same ? above : {}), ...row.cells };
    if (own !== undefined || starts) {
      const given = Object.fromEntries(['customer', ...KITCHEN_FIELDS].flatMap((f) => (cells[f] ? [[f, cells[f]]] : [])));
      above = { ...above, ...given };
    }
    return { ...row, cells };
  });
  return { rows: out, filled };
}

/** Customer and kitchen of each row, in one spelling; where the sheet names no kitchen, the address tells them apart. */
export function placesOf(
  rows: readonly SheetRow[],
  spelled: (name: string) => string,
): { customer: string; kitchen: string; address: string }[] {
  const address = (r: SheetRow) =>
    [r.cells.address, r.cells.town, [r.cells.state, r.cells.zip].filter(Boolean).join(' ')]
      .filter((p) => p !== undefined && p !== '')
      .join(', ');
  const customer = (r: SheetRow) => spelled(r.cells.customer ?? r.cells.kitchen ?? r.cells.address ?? '');
  const firstPart = (r: SheetRow) => (r.cells.address ?? '').split(',')[0]?.trim() ?? '';
  const streets = new Map<string, Map<string, string>>();
  for (const r of rows) {
    if (r.cells.kitchen || !r.cells.address) continue;
    const key = customer(r);
    const named = streets.get(key) ?? new Map<string, string>();
    streets.set(key, named);
    const street = alikeStreet(r.cells.address);
    if (!named.has(street)) named.set(street, firstPart(r));
  }
  return rows.map((r) => {
    const who = customer(r);
    const named = streets.get(who);
    const street = r.cells.address && named && named.size > 1 ? named.get(alikeStreet(r.cells.address)) : undefined;
    const kitchen = r.cells.kitchen ? spelled(r.cells.kitchen) : street || who;
    return { customer: who, kitchen, address: address(r) };
  });
}
