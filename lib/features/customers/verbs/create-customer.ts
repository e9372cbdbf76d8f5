import 'server-only';
import { auditBy } from '../../audit/verbs/write-audit';
import { withinTransaction } from '../../../database/transaction';
import type { NewCustomer } from '../../../schemas/customers/customers';
import { orSay } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';

export const CUSTOMER_REFUSALS = {
  Customer_name_key: ['A customer of this name is on file already. Look under archived too.', 'name'],
} as const;

/** @throws AppError conflict — the name is taken. */
export function createCustomer({ db, actor, now }: ServiceContext, input: NewCustomer): Promise<{ customerId: string }> {
  const work = withinTransaction(db, async (tx) => {
    const { id } = await tx.customer.create({ data: { ...input, createdAt: now } });
    await auditBy(tx, { actor, now }, { action: 'customer.created', entity: 'Customer', entityId: id });
    return { customerId: id };
  });
  return orSay(work, CUSTOMER_REFUSALS);
}
