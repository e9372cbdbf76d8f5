import 'server-only';
import { STORED_HOURS } from '../../../database/stored/shop';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { withinTransaction } from '../../../database/transaction';
import type { NewKitchen } from '../../../schemas/customers/kitchens';
import { orSay } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { nearShop } from './set-position';

export const KITCHEN_REFUSALS = {
  Kitchen_customerId_name_key: ['This customer has a kitchen of this name already. Look under archived too.', 'name'],
} as const;

/** @throws AppError not_found | conflict — the customer is archived, or the name is taken. */
export function createKitchen({ db, actor, now }: ServiceContext, { shortCode, ...input }: NewKitchen): Promise<{ kitchenId: string }> {
  const work = withinTransaction(db, async (tx) => {
    const customer = await tx.customer.findUnique({ where: { id: input.customerId } });
    if (!customer) throw new AppError('not_found', 'That customer is not on file.');
    if (customer.archivedAt) throw new AppError('conflict', 'That customer is out of use. Put it back in use first.');
    const place = shortCode ? await nearShop(tx, shortCode, 'position') : null;
    const { id } = await tx.kitchen.create({
      data: { ...input, ...place, serviceHours: STORED_HOURS.write(input.serviceHours), createdAt: now },
    });
    await auditBy(tx, { actor, now }, { action: 'kitchen.created', entity: 'Kitchen', entityId: id });
    return { kitchenId: id };
  });
  return orSay(work, KITCHEN_REFUSALS);
}
