import 'server-only';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { lockRow } from '../../../database/lock';
import { withinTransaction } from '../../../database/transaction';
import type { Archive, Restore } from '../../../schemas/customers/customers';
import { staleError } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { lastOffFile, putBack, takeUnitsOff } from '../../equipment/verbs/off-file';

/** Takes a customer with all kitchens and units out of use. @throws AppError not_found | conflict — a unit on an open visit, or stale. */
export function archiveCustomer({ db, actor, now }: ServiceContext, { id, version, reason }: Archive): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await lockRow(tx, 'Customer', id);
    const customer = await tx.customer.findUnique({ where: { id } });
    if (!customer) throw new AppError('not_found', 'That customer is not on file.');
    if (customer.version !== version || customer.archivedAt) throw await staleError(tx, 'Customer', id, 'this customer');
    const kitchens = await tx.kitchen.findMany({ where: { customerId: id, archivedAt: null }, select: { id: true } });
    const kitchenIds = kitchens.map((k) => k.id);
    const off = await takeUnitsOff(tx, { kitchenId: { in: kitchenIds } }, now, reason);
    await tx.kitchen.updateMany({ where: { id: { in: kitchenIds } }, data: { archivedAt: now, version: { increment: 1 } } });
    await tx.customer.update({ where: { id }, data: { archivedAt: now, version: { increment: 1 } } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'customer.archived',
        entity: 'Customer',
        entityId: id,
        detail: { reason, kitchenIds, ...off },
      },
    );
  });
}

/** Brings back the customer with the kitchens and units that went with it. @throws AppError not_found | conflict */
export function restoreCustomer({ db, actor, now }: ServiceContext, { id, version }: Restore): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await lockRow(tx, 'Customer', id);
    const customer = await tx.customer.findUnique({ where: { id } });
    if (!customer) throw new AppError('not_found', 'That customer is not on file.');
    if (customer.version !== version || !customer.archivedAt) throw await staleError(tx, 'Customer', id, 'this customer');
    await tx.customer.update({ where: { id }, data: { archivedAt: null, version: { increment: 1 } } });
    await putBack(tx, await lastOffFile(tx, 'customer.archived', id));
    await auditBy(tx, { actor, now }, { action: 'customer.restored', entity: 'Customer', entityId: id });
  });
}
