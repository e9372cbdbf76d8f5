import 'server-only';
import { todayIn } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { NewLeakTest, SetLeakRules } from '../../../schemas/equipment/refrigerant-book';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

type By = ServiceContext & { actor: { userId: string } };

/** A verification test that was made outside a repair record. @throws AppError not_found | invalid */
export function addLeakTest({ db, actor, now }: By, { on, passed, ...t }: NewLeakTest): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const unit = await tx.unit.findUnique({ where: { id: t.unitId }, include: { kitchen: { select: { timeZone: true } } } });
    if (!unit) throw new AppError('not_found', 'That unit is not on file.');
    if (on > todayIn(unit.kitchen.timeZone, now.getTime())) throw new AppError('invalid', 'That day is still to come.', 'on');
    await tx.leakTest.create({ data: { ...t, on: fromLocalDate(on), passed: passed === 'yes', byUserId: actor.userId, at: now } });
    await writeAudit(tx, {
      at: now,
      userId: actor.userId,
      action: 'unit.leak_test',
      entity: 'Unit',
      entityId: t.unitId,
      detail: { on, kind: t.kind, passed },
    });
  });
}

/** Which rule set and method the shop reads its figures by. */
export function setLeakRules({ db, actor, now }: By, rules: SetLeakRules): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await tx.shopSettings.updateMany({ where: { id: 1 }, data: rules });
    await writeAudit(tx, {
      at: now,
      userId: actor.userId,
      action: 'shop.leak_rules',
      entity: 'ShopSettings',
      entityId: '1',
      detail: rules,
    });
  });
}
