import { todayIn } from '../calendar';
import { blankUnit, type UnitValues } from '../equipment/unit-fields';
import type { Column } from './column';
import { knownUnits, updateOf, type OnFilePolicy, type PlannedUpdate } from './units-on-file';
import { kitchenBook, type KitchenUpdate, type OnFile, type PlannedKitchen } from './kitchens';
import { readHeader } from './header';
import { readRow } from './row';
import { planTasks, type PlannedTask, type Tell } from './tasks';
import type { Line, Problem, RowValues, TaskKindInfo } from './types';

/** `tag` is empty where one is still to be made. */
export type PlannedUnit = UnitValues & { line: number; kitchen: PlannedKitchen; tasks: PlannedTask[] };

export type FleetPlan = {
  kitchens: PlannedKitchen[];
  units: PlannedUnit[];
  /** Rows that are about units on file, and what each would change. */
  updates: PlannedUpdate[];
  kitchenUpdates: KitchenUpdate[];
  rowsOnFile: number;
  problems: Problem[];
  rows: number;
};

export type PlanContext = {
  columns: readonly Column[];
  kinds: readonly TaskKindInfo[];
  onFile: OnFile;
  shopTimeZone: string;
  /** What to do with rows that are about units on file; not given, they are problems. */
  whereOnFile?: OnFilePolicy;
  /** Epoch milliseconds. */
  now: number;
};

const headerOf = (columns: readonly Column[], at: readonly (Column | null)[], field: string) =>
  at.find((c) => c?.field === field)?.header ?? columns.find((c) => c.field === field)?.header ?? '';

const nothing = (rows: number, problems: Problem[]): FleetPlan => ({
  kitchens: [],
  units: [],
  updates: [],
  kitchenUpdates: [],
  rowsOnFile: 0,
  rows,
  problems,
});
const problem = (line: number, message: string): Problem => ({ line, column: '', value: '', message, severity: 'error' });

/**
 * Reads a whole file into what would be put on file, and everything that is wrong with it. Nothing is decided by the
 * order of lines except which of two duplicates is called the second.
 */
export function planFleet(lines: readonly Line[], ctx: PlanContext): FleetPlan {
  const [header, ...body] = lines;
  if (!header) return nothing(0, [problem(1, 'The file is empty. Its first line holds the column names.')]);
  const { at, problems, whole } = readHeader(header, ctx.columns);
  // Without a column they need all rows would be wrong in the same way: say it once.
  if (!whole) return nothing(body.length, problems);
  if (body.length === 0) problems.push(problem(2, 'There are column names but no rows.'));

  const book = kitchenBook(ctx, (field) => headerOf(ctx.columns, at, field), problems);
  const tags = tagBook(ctx.onFile.tags);
  const units: PlannedUnit[] = [];
  const updates: PlannedUpdate[] = [];
  const find = knownUnits(ctx.onFile.units ?? []);
  let knownRows = 0;
  for (const line of body) {
    const read = readRow(line, at);
    const unitOnFile = ctx.whereOnFile && find(read.row);
    if (unitOnFile && ctx.whereOnFile) {
      // Of a unit on file a row need not say all.
      problems.push(...read.problems.filter((p) => p.value !== ''));
      knownRows++;
      book.add(line.line, read.row);
      addUpdate(updates, updateOf(unitOnFile, read.row, ctx.whereOnFile, line.line));
      continue;
    }
    problems.push(...read.problems);
    const kitchen = book.enter(line.line, read.row);
    if (!kitchen) continue;
    const tell: Tell = (column, value, message) => problems.push({ line: line.line, column, value, message, severity: 'error' });
    tags.take(read.row.unit.tag ?? '', line.line, tell);
    const unit = wholeUnit(read.row);
    const clash = unit && book.nameTaken(kitchen, unit.name, line.line);
    if (unit && clash) tell('unit', unit.name, clash);
    const tasks = planTasks(read.row, unit, kitchen, ctx.kinds, todayIn(kitchen.values.timeZone, ctx.now), tell);
    if (unit) units.push({ ...unit, line: line.line, kitchen, tasks });
  }
  problems.sort((a, b) => a.line - b.line);
  return { kitchens: book.all(), units, updates, kitchenUpdates: book.updates(), rowsOnFile: knownRows, problems, rows: body.length };
}

/** Of two rows about one unit the first one's word stands. */
function addUpdate(updates: PlannedUpdate[], update: PlannedUpdate | null): void {
  if (!update) return;
  const earlier = updates.find((u) => u.unitId === update.unitId);
  if (earlier) earlier.set = { ...update.set, ...earlier.set };
  else updates.push(update);
}

/** Sees to it that a tag names one unit, in the file and on file. */
function tagBook(onFile: ReadonlySet<string>) {
  const lines = new Map<string, number>();
  return {
    take(tag: string, line: number, tell: Tell): void {
      if (!tag) return;
      const same = lines.get(tag);
      if (same) return tell('tag', tag, `Line ${same} has the same tag. A tag belongs to one unit.`);
      if (onFile.has(tag)) tell('tag', tag, 'A unit on file has this tag already.');
      lines.set(tag, line);
    },
  };
}

/** The unit with what is usual for its kind where the file says nothing; null where it lacks what it must have. */
function wholeUnit({ unit: u }: RowValues): UnitValues | null {
  if (!u.name || !u.kind || !u.placement || !u.refrigerant) return null;
  return { ...blankUnit(u.kind), ...u, name: u.name, kind: u.kind, placement: u.placement, refrigerant: u.refrigerant };
}
