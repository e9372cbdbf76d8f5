import 'server-only';
import { counted } from '../../../core/wording/counted';
import { AppError } from '../../../core/errors';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { Db } from '../../../database/client';
import { STORED_MADE } from '../../../database/stored/imports';
import { lockAll } from '../../../database/lock';
import { withinTransaction } from '../../../database/transaction';
import { whatHangsOn } from '../reads/import-undo';

/**
 * Takes back what an import put on file, and gives units it changed their values back, while nothing hangs on them.
 * @throws AppError not_found | conflict: it says what stands in the way
 */
export function undoImport(
  { db, actor, now }: { db: Db; actor: { userId: string }; now: Date },
  runId: string,
): Promise<{ units: number }> {
  return withinTransaction(db, async (tx) => {
    await lockAll(tx, 'fleet');
    const run = await tx.importRun.findUnique({ where: { id: runId } });
    const made = run && STORED_MADE.readOrNull(run.made);
    if (!run || !made || run.status !== 'done') throw new AppError('not_found', 'There is nothing of this import to take back.');
    const stuck = await whatHangsOn(tx, made);
    if (stuck.length > 0)
      throw new AppError('conflict', `It cannot be taken back any more: ${stuck.join(', ')}. Take single units out of use instead.`);
    for (const { id, version, before } of made.changed) {
      const { count } = await tx.unit.updateMany({ where: { id, version }, data: { ...before, version: version + 1 } });
      if (count === 0)
        throw new AppError('conflict', 'A unit that this import changed was changed again since. Correct it on its own page.');
    }
    for (const { id, version, before } of made.changedKitchens) {
      // A position set by hand gives way to another's only where there is none.
      if ('positionFrom' in before) await tx.kitchen.updateMany({ where: { id, version }, data: { lat: null, lng: null } });
      const { count } = await tx.kitchen.updateMany({ where: { id, version }, data: { ...before, version: version + 1 } });
      if (count === 0)
        throw new AppError('conflict', 'A kitchen that this import changed was changed again since. Correct it on its own page.');
    }
    await tx.task.deleteMany({ where: { unitId: { in: made.units } } });
    const { count: units } = await tx.unit.deleteMany({ where: { id: { in: made.units } } });
    await tx.kitchen.deleteMany({ where: { id: { in: made.kitchens }, units: { none: {} } } });
    await tx.customer.deleteMany({ where: { id: { in: made.customers }, kitchens: { none: {} } } });
    await tx.importRun.update({ where: { id: runId }, data: { status: 'undone', made: undefined, undoneAt: now } });
    await writeAudit(tx, {
      at: now,
      userId: actor.userId,
      action: 'fleet.import_undone',
      entity: 'ImportRun',
      entityId: runId,
      detail: { taken: counted(units, 'unit') },
    });
    return { units };
  });
}
