import 'server-only';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { ReviewChange } from '../../../schemas/visits/tasks';
import type { ServiceContext } from '../../context';
import { recordChange } from './record-change';

/**
 * The owner keeps a change that evidence made, or goes back to the rule before it.
 * @throws AppError not_found | conflict — reviewed already, or the rule has changed again since.
 */
export function reviewChange(ctx: ServiceContext, input: ReviewChange): Promise<void> {
  const { actor, now } = ctx;
  return withinTransaction(ctx.db, async (tx) => {
    const change = await tx.ruleChange.findUnique({ where: { id: input.changeId }, include: { task: true } });
    if (!change || change.kind !== 'evidence') throw new AppError('not_found', 'That change is not on file.');
    const { count } = await tx.ruleChange.updateMany({
      where: { id: change.id, review: null },
      data: { review: input.verdict, reviewedById: actor?.userId ?? null, reviewedAt: now },
    });
    if (count === 0) throw new AppError('conflict', 'Someone has looked at this change already.');
    if (input.verdict === 'accepted') return;
    if (change.task.rule !== change.toRule)
      throw new AppError('conflict', 'The rule has changed again since. Edit the rule as it stands now.');
    await recordChange(tx, ctx, {
      taskId: change.taskId,
      version: change.task.version,
      kind: 'overruled',
      reason: input.reason,
      patch: { rule: change.fromRule },
    });
  });
}
