import 'server-only';
import { withinTransaction } from '../../../database/transaction';
import type { AcceptChanges } from '../../../schemas/visits/tasks';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

/** The owner keeps a group of changes that evidence made. One that somebody looked at meanwhile is passed over. @returns how many */
export function acceptChanges({ db, actor, now }: ServiceContext, { changeIds }: AcceptChanges): Promise<number> {
  return withinTransaction(db, async (tx) => {
    const { count } = await tx.ruleChange.updateMany({
      where: { id: { in: changeIds }, kind: 'evidence', review: null },
      data: { review: 'accepted', reviewedById: actor?.userId ?? null, reviewedAt: now },
    });
    await auditBy(tx, { actor, now }, { action: 'rules.accepted', entity: 'RuleChange', detail: { count } });
    return count;
  });
}
