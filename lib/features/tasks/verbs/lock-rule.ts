import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { withinTransaction } from '../../../database/transaction';
import type { LockRule } from '../../../schemas/visits/tasks';
import type { ServiceContext } from '../../context';
import { recordChange } from '../../intervals/verbs/record-change';

/** A locked rule stays whatever is found; what evidence would have done is still told. @throws AppError not_found | conflict */
export function lockRule(ctx: ServiceContext, { taskId, version, lock, reason }: LockRule): Promise<{ dueOn: LocalDate }> {
  const locked = lock === 'lock';
  return withinTransaction(ctx.db, (tx) =>
    recordChange(tx, ctx, { taskId, version, kind: locked ? 'locked' : 'unlocked', reason, patch: { locked } }),
  );
}
