import 'server-only';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { lockRow } from '../../../database/lock';
import { withinTransaction } from '../../../database/transaction';
import type { Archive, Restore } from '../../../schemas/customers/customers';
import { orSay, staleError } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { lastOffFile, putBack, takeUnitsOff } from './off-file';
import { UNIT_REFUSALS } from './create-unit';

/** Takes a unit out of use with a reason; its history stays. @throws AppError not_found | conflict — on an open visit, or stale. */
export function archiveUnit({ db, actor, now }: ServiceContext, { id, version, reason }: Archive): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await lockRow(tx, 'Unit', id);
    const unit = await tx.unit.findUnique({ where: { id } });
    if (!unit) throw new AppError('not_found', 'That unit is not on file.');
    if (unit.version !== version || unit.archivedAt) throw await staleError(tx, 'Unit', id, 'this unit');
    const off = await takeUnitsOff(tx, { id }, now, reason);
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'unit.archived',
        entity: 'Unit',
        entityId: id,
        detail: { reason, ...off },
      },
    );
  });
}

/** @throws AppError not_found | conflict — the kitchen is archived, or the name was given to another unit meanwhile. */
export function restoreUnit({ db, actor, now }: ServiceContext, { id, version }: Restore): Promise<void> {
  const work = withinTransaction(db, async (tx) => {
    await lockRow(tx, 'Unit', id);
    const unit = await tx.unit.findUnique({ where: { id }, include: { kitchen: true } });
    if (!unit) throw new AppError('not_found', 'That unit is not on file.');
    if (unit.version !== version || !unit.archivedAt) throw await staleError(tx, 'Unit', id, 'this unit');
    if (unit.kitchen.archivedAt) throw new AppError('conflict', `${unit.kitchen.name} is out of use. Put the kitchen back in use first.`);
    const off = await lastOffFile(tx, 'unit.archived', id);
    await putBack(tx, { kitchenIds: [], unitIds: [id], taskIds: off.taskIds });
    await auditBy(tx, { actor, now }, { action: 'unit.restored', entity: 'Unit', entityId: id });
  });
  return orSay(work, UNIT_REFUSALS);
}
