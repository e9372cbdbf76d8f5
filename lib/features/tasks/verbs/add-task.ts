import 'server-only';
import { todayIn } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { firstTask } from '../../../core/tasks/first-task';
import { auditBy } from '../../audit/verbs/write-audit';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { withinTransaction } from '../../../database/transaction';
import type { NewTask } from '../../../schemas/visits/tasks';
import type { ServiceContext } from '../../context';

/**
 * Gives a unit one more recurring task; one that was taken off earlier comes back with its history.
 * @throws AppError not_found | conflict — the unit has it already, or is archived.
 */
export function addTask({ db, actor, now }: ServiceContext, input: NewTask): Promise<{ taskId: string }> {
  return withinTransaction(db, async (tx) => {
    const unit = await tx.unit.findUnique({ where: { id: input.unitId }, include: { kitchen: true } });
    const kind = await tx.taskKind.findUnique({ where: { key: input.kindKey } });
    if (!unit) throw new AppError('not_found', 'That unit is not on file.');
    if (unit.archivedAt) throw new AppError('conflict', 'That unit is out of use. Put it back in use first.');
    if (!kind?.active) throw new AppError('not_found', 'That kind of task is not on file.', 'kindKey');
    const earlier = await tx.task.findUnique({ where: { unitId_kindKey: { unitId: unit.id, kindKey: kind.key } } });
    if (earlier?.active) throw new AppError('conflict', 'This unit has that task already. Edit its rule instead.', 'kindKey');
    const lastDoneOn = earlier?.lastDoneOn ? toLocalDate(earlier.lastDoneOn) : null;
    const first = firstTask({
      rule: input.rule,
      anchor: input.anchor,
      firstDue: input.firstDueOn ?? null,
      lastDoneOn,
      today: todayIn(unit.kitchen.timeZone, now.getTime()),
    });
    const data = {
      rule: first.rule,
      anchor: first.anchor,
      anchorDate: fromLocalDate(first.anchorDate),
      dueOn: fromLocalDate(first.dueOn),
      active: true,
    };
    const task = earlier
      ? await tx.task.update({ where: { id: earlier.id }, data: { ...data, version: { increment: 1 } } })
      : await tx.task.create({
          data: {
            ...data,
            unitId: unit.id,
            kitchenId: unit.kitchenId,
            kindKey: kind.key,
            minWeeks: kind.minWeeks,
            maxWeeks: kind.maxWeeks,
            createdAt: now,
          },
        });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'task.added',
        entity: 'Task',
        entityId: task.id,
        detail: { rule: first.rule },
      },
    );
    return { taskId: task.id };
  });
}
