import { addDays, CalendarError, weeksRule, type LocalDate } from '../calendar';
import type { UnitValues } from '../equipment/unit-fields';
import { firstTask, spreadDays, type FirstTask } from '../tasks/first-task';
import { startingWeeks, TASK_KEYS, usualTasks, type TaskKey } from '../tasks/kinds';
import type { PlannedKitchen } from './kitchens';
import type { RowValues, TaskKindInfo } from './types';

export type PlannedTask = FirstTask & { kindKey: string; locked: boolean; minWeeks: number; maxWeeks: number };

const isUsual = (key: string): key is TaskKey => (TASK_KEYS as readonly string[]).includes(key);

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
  tell: (column: string, value: string, message: string) => void,
): PlannedTask[] {
  const planned: PlannedTask[] = [];
  for (const kind of kinds) {
    const given = row.tasks.get(kind.key) ?? {};
    if (given.lastDoneOn && given.lastDoneOn > today) tell(`${kind.key}_last_done`, given.lastDoneOn, 'Lies in the future.');
    if (!unit || given.rule === 'none') continue;
    const usual = isUsual(kind.key) && usualTasks(unit.kind).includes(kind.key);
    if (!given.rule && !usual) {
      if (given.anchor || given.firstDue || given.lastDoneOn || given.locked !== undefined)
        tell(`${kind.key}_rule`, '', 'Is empty though other columns of this task are filled. Write its weeks.');
      continue;
    }
    const weeks = isUsual(kind.key) ? startingWeeks(kind.key, unit.placement) : kind.defaultWeeks;
    const rule = given.rule ?? weeksRule(weeks, kitchen.values.preferredWeekday ?? undefined);
    const firstDue = given.firstDue ?? (given.lastDoneOn ? null : addDays(today, spreadDays(kitchen.key, weeks)));
    try {
      const first = firstTask({ rule, anchor: given.anchor ?? 'last_completed', firstDue, lastDoneOn: given.lastDoneOn ?? null, today });
      planned.push({ ...first, kindKey: kind.key, locked: given.locked ?? false, minWeeks: kind.minWeeks, maxWeeks: kind.maxWeeks });
    } catch (e) {
      if (!(e instanceof CalendarError)) throw e;
      tell(`${kind.key}_rule`, rule, e.message);
    }
  }
  return planned;
}
