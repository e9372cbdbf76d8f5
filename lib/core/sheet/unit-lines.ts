import { lastSuchMonth, readDate, type DateOrder } from '../calendar/read-date';
import { readMass } from './read-mass';
import type { RawSheet } from './types';
import { placementOf, refrigerantIn } from './vocabulary';

export type UnitLinesContext = {
  kitchen: { customer: string; name: string };
  refrigerants: readonly string[];
  dateOrder: DateOrder;
  today: string;
};

const COLUMNS = ['Customer', 'Kitchen', 'Unit', 'Gas', 'Charge', 'Where', 'Last cleaned', 'Notes'] as const;
type Column = (typeof COLUMNS)[number];
/** A refrigerant within the words of a unit: only one that could be nothing else. */
const GAS_WITHIN = /\br[\s-]?\d{2,3}[a-f]?\b|\b(134a|404a|407[acf]|410a|448a|449a|450a|452a|507a?|513a|600a)\b/i;
const MOST_WORDS_OF_A_PLACE = 4;

/** What a piece of a line says; the first that fits. */
function columnOf(piece: string, taken: Partial<Record<Column, string>>, ctx: UnitLinesContext): Column {
  if (!taken.Gas && /\d|co2|propane|isobutane/i.test(piece) && refrigerantIn(piece, ctx.refrigerants)) return 'Gas';
  if (!taken.Charge && typeof readMass(piece, null) === 'number') return 'Charge';
  if (!taken['Last cleaned'] && (readDate(piece, ctx.dateOrder) ?? lastSuchMonth(piece, ctx.today))) return 'Last cleaned';
  if (!taken.Where && piece.split(/\s+/).length <= MOST_WORDS_OF_A_PLACE && placementOf(piece)) return 'Where';
  return 'Notes';
}

/**
 * Units of a kitchen typed a line each, the name first and the rest in any order: "Reach-in 2, 134a, by the fryer, June". Read into a
 * sheet of the fleet, so that what cannot be told is asked as of any other.
 */
export function unitLines(text: string, ctx: UnitLinesContext): RawSheet {
  const rows = text.split(/\r?\n/).flatMap((line) => {
    const [unit = '', ...pieces] = line.split(/\s*[,;\t]\s*/).map((p) => p.trim());
    if ([unit, ...pieces].every((p) => p === '')) return [];
    const row: Partial<Record<Column, string>> = { Customer: ctx.kitchen.customer, Kitchen: ctx.kitchen.name, Unit: unit };
    for (const piece of pieces.filter(Boolean)) {
      const column = columnOf(piece, row, ctx);
      row[column] = row[column] ? `${row[column]}, ${piece}` : piece;
    }
    row.Gas ??= GAS_WITHIN.exec(unit)?.[0];
    return [COLUMNS.map((c) => row[c] ?? '')];
  });
  return { name: '', rows: [[...COLUMNS], ...rows] };
}
