import 'server-only';
import { nextDue, todayIn } from '../../core/calendar';
import type { Tx } from '../../data/client';
import { fromLocalDate, toLocalDate } from '../../data/dates';

/** Tasks done on a visit: the completed date is the day the technician left, in the kitchen's own calendar. */
export async function markDone(db: Tx, taskIds: readonly string[], timeZone: string, leftAt: Date): Promise<void> {
  const doneOn = todayIn(timeZone, leftAt.getTime());
  for (const task of await db.task.findMany({ where: { id: { in: [...taskIds] } } })) {
    const lastDoneOn = task.lastDoneOn && toLocalDate(task.lastDoneOn) > doneOn ? toLocalDate(task.lastDoneOn) : doneOn;
    const dueOn = nextDue({ rule: task.rule, anchor: task.anchor, anchorDate: toLocalDate(task.anchorDate), lastDoneOn });
    await db.task.update({
      where: { id: task.id },
      data: { lastDoneOn: fromLocalDate(lastDoneOn), dueOn: dueOn ? fromLocalDate(dueOn) : undefined, version: { increment: 1 } },
    });
  }
}
