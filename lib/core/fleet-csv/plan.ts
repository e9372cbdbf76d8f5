import { todayIn } from '../calendar';
import { blankUnit, type UnitValues } from '../equipment/unit-fields';
import type { Column } from './column';
import { knownUnits, updateOf, type Known, type PlannedUpdate } from './known';
import { kitchenBook, type OnFile, type PlannedKitchen } from './kitchens';
import { readHeader } from './header';
import { readRow } from './row';
import { planTasks, type PlannedTask } from './tasks';
import type { Line, Problem, RowValues, TaskKindInfo } from './types';

/** `tag` is empty where one is still to be made. */
export type PlannedUnit = UnitValues & { line: number; kitchen: PlannedKitchen; tasks: PlannedTask[] };

export type FleetPlan = {
  kitchens: PlannedKitchen[];
  units: PlannedUnit[];
  /** Rows that are about units on file, and what each would change. */
  updates: PlannedUpdate[];
  known: number;
  problems: Problem[];
  rows: number;
};

export type PlanContext = {
  columns: readonly Column[];
  kinds: readonly TaskKindInfo[];
  onFile: OnFile;
  shopTimeZone: string;
  /** What to do with rows that are about units on file; not given, they are problems. */
  known?: Known;
  /** Epoch milliseconds. */
  now: number;
};

const headerOf = (columns: readonly Column[], at: readonly (Column | null)[], field: string) =>
  at.find((c) => c?.field === field)?.header ?? columns.find((c) => c.field === field)?.header ?? '';

/**
 * Reads a whole file into what would be put on file, and everything that is wrong with it. Nothing is decided by the
 * order of lines except which of two duplicates is called the second.
 */
export function planFleet(lines: readonly Line[], ctx: PlanContext): FleetPlan {
  const [header, ...body] = lines;
  if (!header)
    return {
      kitchens: [],
      units: [],
      updates: [],
      known: 0,
      rows: 0,
      problems: [
        { line: 1, column: '', value: '', message: 'The file is empty. Its first line holds the column names.', severity: 'error' },
      ],
    };
  const { at, problems, whole } = readHeader(header, ctx.columns);
  // Without a column they need all rows would be wrong in the same way: say it once.
  if (!whole) return { kitchens: [], units: [], updates: [], known: 0, rows: body.length, problems };
  if (body.length === 0)
    problems.push({ line: 2, column: '', value: '', message: 'There are column names but no rows.', severity: 'error' });

  const book = kitchenBook(ctx, (field) => headerOf(ctx.columns, at, field), problems);
  const tags = new Map<string, number>();
  const units: PlannedUnit[] = [];
  const updates: PlannedUpdate[] = [];
  const find = knownUnits(ctx.onFile.units ?? []);
  let knownRows = 0;
  for (const line of body) {
    const read = readRow(line, at);
    const { row } = read;
    const known = ctx.known && find(row);
    if (known && ctx.known) {
      // Of a unit on file a row need not say all.
      problems.push(...read.problems.filter((p) => p.value !== ''));
      knownRows++;
      const update = updateOf(known, row, ctx.known, line.line);
      const earlier = update && updates.find((u) => u.unitId === update.unitId);
      if (earlier) earlier.set = { ...update.set, ...earlier.set };
      else if (update) updates.push(update);
      continue;
    }
    problems.push(...read.problems);
    const kitchen = book.enter(line.line, row);
    if (!kitchen) continue;
    const tell = (column: string, value: string, message: string) =>
      problems.push({ line: line.line, column, value, message, severity: 'error' });

    const tag = row.unit.tag ?? '';
    const sameTag = tags.get(tag);
    if (tag && sameTag) tell('tag', tag, `Line ${sameTag} has the same tag. A tag belongs to one unit.`);
    else if (tag && ctx.onFile.tags.has(tag)) tell('tag', tag, 'A unit on file has this tag already.');
    if (tag && !sameTag) tags.set(tag, line.line);
    const unit = wholeUnit(row);
    const clash = unit && book.nameTaken(kitchen, unit.name, line.line);
    if (unit && clash) tell('unit', unit.name, clash);
    const tasks = planTasks(row, unit, kitchen, ctx.kinds, todayIn(kitchen.values.timeZone, ctx.now), tell);
    if (unit) units.push({ ...unit, line: line.line, kitchen, tasks });
  }
  problems.sort((a, b) => a.line - b.line);
  return { kitchens: book.all(), units, updates, known: knownRows, problems, rows: body.length };
}

/** The unit with what is usual for its kind where the file says nothing; null where it lacks what it must have. */
function wholeUnit({ unit: u }: RowValues): UnitValues | null {
  if (!u.name || !u.kind || !u.placement || !u.refrigerant) return null;
  return { ...blankUnit(u.kind), ...u, name: u.name, kind: u.kind, placement: u.placement, refrigerant: u.refrigerant };
}
