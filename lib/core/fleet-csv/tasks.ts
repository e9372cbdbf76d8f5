import { addDays, CalendarError, weeksRule, type LocalDate } from '../calendar';
import type { UnitValues } from '../equipment/unit-fields';
import { firstTask, spreadDays, type FirstTask } from '../tasks/first-task';
import { COIL_CLEANING, startingWeeks, TASK_KEYS, usualTasks } from '../tasks/kinds';
import { isOneOf } from '../typed/closed-set';
import type { PlannedKitchen } from './kitchens';
import type { RowValues, TaskKindInfo } from './types';

export type PlannedTask = FirstTask & { kindKey: string; locked: boolean; minWeeks: number; maxWeeks: number };

export type Tell = (column: string, value: string, message: string) => void;
type Given = NonNullable<ReturnType<RowValues['tasks']['get']>>;

/**
 * A unit's tasks: those the file gives a rule for and those usual for its kind. Where nothing is known of the last time,
 * the first dates of an imported fleet are spread over one interval, a whole kitchen together.
 */
export function planTasks(
  row: RowValues,
  unit: UnitValues | null,
  kitchen: PlannedKitchen,
  kinds: readonly TaskKindInfo[],
  today: LocalDate,
  tell: Tell,
): PlannedTask[] {
  return kinds.flatMap((kind) => {
    const given = givenFor(row, unit, kind.key);
    if (given.lastDoneOn && given.lastDoneOn > today) tell(`${kind.key}_last_done`, given.lastDoneOn, 'Lies in the future.');
    if (!unit || given.rule === 'none') return [];
    if (given.rule || usualTasks(unit).some((key) => key === kind.key)) return planTask(given, unit, kitchen, kind, today, tell);
    if (given.anchor || given.firstDue || given.lastDoneOn || given.locked !== undefined)
      tell(`${kind.key}_rule`, '', 'Is empty though other columns of this task are filled. Write its weeks.');
    return [];
  });
}

/** What the row says of a task; what it says of cleaning a coil is meant of the water side where water cools the unit. */
function givenFor(row: RowValues, unit: UnitValues | null, key: string): Given {
  const given = row.tasks.get(key) ?? {};
  if (unit?.condenserKind !== 'water_cooled') return given;
  if (key === COIL_CLEANING) return {};
  return key === 'water_side_check' ? { ...row.tasks.get(COIL_CLEANING), ...given } : given;
}

function planTask(
  given: Given,
  unit: UnitValues,
  kitchen: PlannedKitchen,
  kind: TaskKindInfo,
  today: LocalDate,
  tell: Tell,
): PlannedTask[] {
  const { lastDoneOn = null, anchor = 'last_completed', locked = false } = given;
  const weeks = isOneOf(TASK_KEYS, kind.key) ? startingWeeks(kind.key, unit.placement) : kind.defaultWeeks;
  const rule = given.rule ?? weeksRule(weeks, kitchen.values.preferredWeekday ?? undefined);
  const firstDue = given.firstDue ?? (lastDoneOn ? null : addDays(today, spreadDays(kitchen.key, weeks)));
  try {
    const first = firstTask({ rule, anchor, firstDue, lastDoneOn, today });
    return [{ ...first, kindKey: kind.key, locked, minWeeks: kind.minWeeks, maxWeeks: kind.maxWeeks }];
  } catch (e) {
    if (!(e instanceof CalendarError)) throw e;
    tell(`${kind.key}_rule`, rule, e.message);
    return [];
  }
}
