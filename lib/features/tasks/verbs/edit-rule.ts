import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { onItsWeekday } from '../../../core/tasks/first-task';
import { toLocalDate } from '../../../core/calendar/date-column';
import { withinTransaction } from '../../../database/transaction';
import type { EditRule } from '../../../schemas/visits/tasks';
import type { ServiceContext } from '../../context';
import { recordChange } from '../../intervals/verbs/record-change';

/** Sets a task's rule by hand. The reason stays with its history. @throws AppError not_found | invalid | conflict */
export function editRule(ctx: ServiceContext, input: EditRule): Promise<{ dueOn: LocalDate }> {
  return withinTransaction(ctx.db, async (tx) => {
    const task = await tx.task.findUnique({ where: { id: input.taskId } });
    if (!task) throw new AppError('not_found', 'That task is not on file.');
    const { rule, anchor, minWeeks, maxWeeks } = input;
    const anchorDate = onItsWeekday(rule, input.firstDueOn ?? toLocalDate(task.anchorDate));
    return recordChange(tx, ctx, {
      taskId: task.id,
      version: input.version,
      kind: 'edited',
      reason: input.reason,
      patch: { rule, anchor, anchorDate, minWeeks, maxWeeks },
    });
  });
}
