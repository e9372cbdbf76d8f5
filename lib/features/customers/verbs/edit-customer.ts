import 'server-only';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { EditCustomer } from '../../../schemas/customers/customers';
import { orSay, staleError, writeEdit } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { CUSTOMER_REFUSALS } from './create-customer';

/** @throws AppError not_found | conflict — the name is taken, or someone changed it meanwhile. */
export function editCustomer({ db, actor, now }: ServiceContext, { id, version, ...data }: EditCustomer): Promise<void> {
  const work = withinTransaction(db, async (tx) => {
    const before = await tx.customer.findUnique({ where: { id } });
    if (!before) throw new AppError('not_found', 'That customer is not on file.');
    const { count } = await tx.customer.updateMany({ where: { id, version }, data: { ...data, version: { increment: 1 } } });
    if (count === 0) throw await staleError(tx, 'Customer', id, 'this customer');
    await writeEdit(tx, { actor, now }, { action: 'customer.edited', entity: 'Customer', id }, before, data);
  });
  return orSay(work, CUSTOMER_REFUSALS);
}
