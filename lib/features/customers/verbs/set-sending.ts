import 'server-only';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { SetSending } from '../../../schemas/customers/customers';
import { writeEdit } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';

/** What goes out to a customer by itself. @throws AppError not_found */
export function setSending({ db, actor, now }: ServiceContext, { id, ...data }: SetSending): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const before = await tx.customer.findUnique({ where: { id } });
    if (!before) throw new AppError('not_found', 'That customer is not on file.');
    await tx.customer.update({ where: { id }, data });
    await writeEdit(tx, { actor, now }, { action: 'customer.edited', entity: 'Customer', id }, before, data);
  });
}
