import type { Line, Problem } from '../fleet-csv';
import { unguarded } from '../fleet-csv/row';
import { greatCircleKm } from './travel';

/** A kitchen as a file may name it: "Customer, Kitchen", the kitchen alone where only one is called so, or a unit's tag. */
export type NamedKitchen = { id: string; name: string; customer: string; lat: number | null; lng: number | null; tags: readonly string[] };
export type TravelPair = { fromKitchenId: string; toKitchenId: string; minutes: number };
export type TravelPlan = { pairs: TravelPair[]; problems: Problem[] };

export const TRAVEL_COLUMNS = ['from', 'to', 'minutes'] as const;
type Column = (typeof TRAVEL_COLUMNS)[number];

const MOST_MINUTES = 600;
/** No van is faster than this in a straight line; the minutes are then hours, or the kitchens the wrong ones. */
const FASTEST_KMH = 130;

/** How a file names a kitchen. */
export const kitchenLabel = (k: Pick<NamedKitchen, 'name' | 'customer'>): string => `${k.customer}, ${k.name}`;

/** Reads driving minutes between kitchens. Every bad line is named; pairs count only when no problem is an error. */
export function readTravel(lines: readonly Line[], kitchens: readonly NamedKitchen[]): TravelPlan {
  const [header, ...rows] = lines;
  if (!header)
    return { pairs: [], problems: [error(1, '', '', 'The file is empty. The first line names the columns: from, to, minutes.')] };
  const names = header.cells.map(plain);
  const at = (column: Column) => names.indexOf(column);
  const missing = TRAVEL_COLUMNS.filter((c) => at(c) < 0);
  if (missing.length > 0)
    return {
      pairs: [],
      problems: missing.map((c) =>
        error(header.line, c, header.cells.join(', '), `There is no column “${c}”. The first line names the columns: from, to, minutes.`),
      ),
    };
  const problems: Problem[] = [];
  const pairs: TravelPair[] = [];
  const first = new Map<string, number>();
  const find = finder(kitchens);
  for (const { line, cells } of rows) {
    const cell = (column: Column) => (cells[at(column)] ?? '').trim();
    const place = (column: 'from' | 'to') => {
      const found = find(cell(column));
      if (typeof found !== 'string') return found;
      problems.push(error(line, column, cell(column), found));
      return null;
    };
    const [from, to] = [place('from'), place('to')];
    const minutes = minutesIn(cell('minutes'));
    if (typeof minutes === 'string') problems.push(error(line, 'minutes', cell('minutes'), minutes));
    if (!from || !to || typeof minutes === 'string') continue;
    if (from.id === to.id) {
      problems.push(error(line, 'to', cell('to'), 'From and to are the same kitchen; take the line out.'));
      continue;
    }
    const key = `${from.id} ${to.id}`;
    const before = first.get(key);
    if (before !== undefined) {
      problems.push(error(line, '', '', `The same way stands on line ${before} already; keep one of them.`));
      continue;
    }
    first.set(key, line);
    const tooFast = outOfReach(from, to, minutes);
    if (tooFast) problems.push({ line, column: 'minutes', value: cell('minutes'), message: tooFast, severity: 'note' });
    pairs.push({ fromKitchenId: from.id, toKitchenId: to.id, minutes });
  }
  if (rows.length === 0) problems.push(error(header.line, '', '', 'There is no line below the header.'));
  return { pairs, problems };
}

const error = (line: number, column: string, value: string, message: string): Problem => ({
  line,
  column,
  value,
  message,
  severity: 'error',
});
const plain = (text: string) => unguarded(text.trim()).trim().toLowerCase().replace(/\s+/g, ' ');

function finder(kitchens: readonly NamedKitchen[]) {
  const by = new Map<string, Set<NamedKitchen>>();
  for (const k of kitchens)
    for (const key of [kitchenLabel(k), k.name, ...k.tags].map(plain)) by.set(key, (by.get(key) ?? new Set()).add(k));
  return (text: string): NamedKitchen | string => {
    if (text === '') return 'Name a kitchen.';
    const found = [...(by.get(plain(text)) ?? [])];
    if (found.length === 1) return found[0]!;
    if (found.length > 1) return `More than one kitchen is called so: write it as “${kitchenLabel(found[0]!)}”.`;
    return 'No kitchen on file is called so. Write “Customer, Kitchen” as on the kitchen’s page, or a tag of one of its units.';
  };
}

function minutesIn(text: string): number | string {
  if (text === '') return 'Give the minutes, or take the line out: coordinates then answer for it.';
  const minutes = /^\d+([.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : NaN;
  if (Number.isNaN(minutes)) return 'Give minutes as a number, such as 14 or 14.5.';
  if (minutes > MOST_MINUTES) return `More than ${MOST_MINUTES} minutes; give minutes, not seconds.`;
  return minutes;
}

function outOfReach(from: NamedKitchen, to: NamedKitchen, minutes: number): string | null {
  if (from.lat === null || from.lng === null || to.lat === null || to.lng === null) return null;
  const km = greatCircleKm({ lat: from.lat, lng: from.lng }, { lat: to.lat, lng: to.lng });
  return km > (Math.max(minutes, 1) * FASTEST_KMH) / 60
    ? `${km.toFixed(0)} km in a straight line in ${minutes} minutes: look at it again, and at the coordinates.`
    : null;
}
