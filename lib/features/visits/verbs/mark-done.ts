import 'server-only';
import { nextDue, todayIn } from '../../../core/calendar';
import { COIL_CLEANING } from '../../../core/tasks';
import type { Tx } from '../../../database/client';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { endTask, type DoneThere } from '../../tasks/verbs/end-task';
import { keepCleaningBefore } from '../../intervals/verbs/cleaning-before';

/** Tasks done on a visit: the completed date is the day the technician left, in the kitchen's own calendar. */
export async function markDone(db: Tx, taskIds: readonly string[], timeZone: string, leftAt: Date, there: DoneThere): Promise<void> {
  const doneOn = todayIn(timeZone, leftAt.getTime());
  for (const task of await db.task.findMany({ where: { id: { in: [...taskIds] } } })) {
    if (
      task.kindKey === COIL_CLEANING &&
      task.lastDoneOn &&
      toLocalDate(task.lastDoneOn) < doneOn &&
      (await neverDoneByUs(db, task.id, there.visitId))
    )
      await keepCleaningBefore(db, task.unitId, toLocalDate(task.lastDoneOn), timeZone);
    const lastDoneOn = task.lastDoneOn && toLocalDate(task.lastDoneOn) > doneOn ? toLocalDate(task.lastDoneOn) : doneOn;
    const dueOn = nextDue({ rule: task.rule, anchor: task.anchor, anchorDate: toLocalDate(task.anchorDate), lastDoneOn });
    if (!dueOn && task.active) {
      await endTask(db, { id: task.id, rule: task.rule, dueOn: toLocalDate(task.dueOn), lastDoneOn }, there);
      continue;
    }
    await db.task.update({
      where: { id: task.id },
      data: { lastDoneOn: fromLocalDate(lastDoneOn), dueOn: dueOn ? fromLocalDate(dueOn) : undefined, version: { increment: 1 } },
    });
  }
}

const neverDoneByUs = async (db: Tx, taskId: string, visitId: string): Promise<boolean> =>
  (await db.visitTask.count({ where: { taskId, outcome: 'done', visitId: { not: visitId }, visit: { status: 'done' } } })) === 0;
