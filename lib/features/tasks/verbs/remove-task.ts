import 'server-only';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { RemoveTask } from '../../../schemas/visits/tasks';
import type { ServiceContext } from '../../context';
import { recordChange } from '../../intervals/verbs/record-change';

/** Takes a task off a unit; its history stays. @throws AppError not_found | conflict — it stands on an open visit, or stale. */
export function removeTask(ctx: ServiceContext, { taskId, version, reason }: RemoveTask): Promise<void> {
  return withinTransaction(ctx.db, async (tx) => {
    const standing = await tx.visitTask.findFirst({ where: { taskId, open: true } });
    if (standing) throw new AppError('conflict', 'It stands on an open visit. Cancel that visit or wait until it is closed.');
    await recordChange(tx, ctx, { taskId, version, kind: 'edited', reason: `Taken off: ${reason}`, patch: { active: false } });
  });
}
