import 'server-only';
import { addDays, isWeekday, todayIn, weeksRule, type LocalDate } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { firstTask } from '../../../core/tasks/first-task';
import { condenserTask, startingWeeks, usualTasks, type TaskKey } from '../../../core/tasks';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { withinTransaction } from '../../../database/transaction';
import type { ServiceContext } from '../../context';

/** Days until a first visit where nobody knows when the unit was last seen to. */
const FIRST_VISIT_DAYS = 14;

export type FirstDates = {
  /** When the condenser was last seen to, by whomever. */
  lastCleanedOn?: LocalDate | null;
  firstDueOn?: LocalDate | null;
};

/** Ids that were given out before the office heard of the unit. */
export type TaskIds = Partial<Record<TaskKey, string>>;

/** A tablet of before the water side check gave its id to a coil cleaning. */
const idFor = (key: TaskKey, ids: TaskIds) => ids[key] ?? (key === 'water_side_check' ? ids.coil_cleaning : undefined);

/**
 * Gives a unit the tasks usual for its kind that it does not have yet, at the intervals of common practice for its
 * placement, on the kitchen's preferred weekday. Tasks it has, also those taken off, are left alone.
 * @returns ids of the tasks made. @throws AppError not_found
 */
export function ensureDefaultTasks(
  { db, now }: ServiceContext,
  unitId: string,
  dates: FirstDates = {},
  ids: TaskIds = {},
): Promise<string[]> {
  return withinTransaction(db, async (tx) => {
    const unit = await tx.unit.findUnique({ where: { id: unitId }, include: { kitchen: true, tasks: { select: { kindKey: true } } } });
    if (!unit) throw new AppError('not_found', 'That unit is not on file.');
    const has = new Set(unit.tasks.map((t) => t.kindKey));
    const { preferredWeekday } = unit.kitchen;
    const today = todayIn(unit.kitchen.timeZone, now.getTime());
    const wanted = usualTasks(unit).filter((key) => !has.has(key));
    const kinds = await tx.taskKind.findMany({ where: { key: { in: [...wanted] }, active: true }, orderBy: { sort: 'asc' } });
    const made: string[] = [];
    for (const kind of kinds) {
      const weeks = startingWeeks(kind.key as (typeof wanted)[number], unit.placement);
      const lastDoneOn = (kind.key === condenserTask(unit) && dates.lastCleanedOn) || null;
      const rule = weeksRule(weeks, isWeekday(preferredWeekday) ? preferredWeekday : undefined);
      const firstDue = dates.firstDueOn ?? (lastDoneOn ? null : addDays(today, FIRST_VISIT_DAYS));
      const first = firstTask({ rule, anchor: 'last_completed', firstDue, lastDoneOn, today });
      const { id } = await tx.task.create({
        data: {
          id: idFor(kind.key as TaskKey, ids),
          unitId,
          kitchenId: unit.kitchenId,
          kindKey: kind.key,
          rule: first.rule,
          anchor: first.anchor,
          minWeeks: kind.minWeeks,
          maxWeeks: kind.maxWeeks,
          createdAt: now,
          anchorDate: fromLocalDate(first.anchorDate),
          lastDoneOn: lastDoneOn && fromLocalDate(lastDoneOn),
          dueOn: fromLocalDate(first.dueOn),
        },
      });
      made.push(id);
    }
    return made;
  });
}
