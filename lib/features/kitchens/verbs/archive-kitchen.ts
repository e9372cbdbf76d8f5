import 'server-only';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { lockRow } from '../../../database/lock';
import { withinTransaction } from '../../../database/transaction';
import type { Archive, Restore } from '../../../schemas/customers/customers';
import { staleError } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { lastOffFile, putBack, takeUnitsOff } from '../../equipment/verbs/off-file';

/** Takes a kitchen and all its units out of use. @throws AppError not_found | conflict — a unit on an open visit, or stale. */
export function archiveKitchen({ db, actor, now }: ServiceContext, { id, version, reason }: Archive): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await lockRow(tx, 'Kitchen', id);
    const kitchen = await tx.kitchen.findUnique({ where: { id } });
    if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.');
    if (kitchen.version !== version || kitchen.archivedAt) throw await staleError(tx, 'Kitchen', id, 'this kitchen');
    const off = await takeUnitsOff(tx, { kitchenId: id }, now, reason);
    await tx.kitchen.update({ where: { id }, data: { archivedAt: now, version: { increment: 1 } } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'kitchen.archived',
        entity: 'Kitchen',
        entityId: id,
        detail: { reason, ...off },
      },
    );
  });
}

/** Brings back the kitchen with the units that went with it. @throws AppError not_found | conflict */
export function restoreKitchen({ db, actor, now }: ServiceContext, { id, version }: Restore): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await lockRow(tx, 'Kitchen', id);
    const kitchen = await tx.kitchen.findUnique({ where: { id }, include: { customer: true } });
    if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.');
    if (kitchen.version !== version || !kitchen.archivedAt) throw await staleError(tx, 'Kitchen', id, 'this kitchen');
    if (kitchen.customer.archivedAt)
      throw new AppError('conflict', `${kitchen.customer.name} is out of use. Put the customer back in use first.`);
    const off = await lastOffFile(tx, 'kitchen.archived', id);
    await putBack(tx, { ...off, kitchenIds: [id] });
    await auditBy(tx, { actor, now }, { action: 'kitchen.restored', entity: 'Kitchen', entityId: id });
  });
}
