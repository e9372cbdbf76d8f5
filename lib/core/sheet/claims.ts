import { knownUnits, type KnownUnit } from '../fleet-csv';
import type { SheetRow } from './rows';

/** The unit on file that each row is about. Tags and serials come first, and no unit is taken for two rows. */
export function claims(rows: readonly SheetRow[], places: readonly { customer: string; kitchen: string }[], units: readonly KnownUnit[]) {
  const find = knownUnits(units);
  const rest = { kitchen: {}, tasks: new Map() };
  const found = rows.map(({ cells: c }) => find({ ...rest, names: {}, unit: { tag: c.tag?.toUpperCase(), serial: c.serial } }));
  const taken = new Set(found);
  return found.map((sure, i) => {
    if (sure) return sure;
    const c = rows[i]?.cells ?? {};
    const named = find({
      ...rest,
      names: { customer: places[i]?.customer, kitchen: places[i]?.kitchen },
      unit: { name: c.unit, serial: c.serial },
    });
    if (!named || taken.has(named)) return undefined;
    taken.add(named);
    return named;
  });
}
