import 'server-only';
import { addDays, todayIn } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { compareWays, unitWays } from '../../../core/choices';
import { AppError } from '../../../core/errors';
import { STORED_CHOICE } from '../../../database/stored/choices';
import { withinTransaction } from '../../../database/transaction';
import type { DecideUnit, LookAgain } from '../../../schemas/equipment/choices';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { shopCosts, unitFacts } from '../reads/unit-facts';

type By = ServiceContext & { actor: { userId: string } };
const YEAR = 365;

/** Keeps what was decided with the figures it rests on, reckoned anew here, and the day to look at it again. @throws AppError not_found | invalid */
export function decideUnit({ db, actor, now }: By, { unitId, way, reason, ...typed }: DecideUnit): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const unit = await tx.unit.findUnique({ where: { id: unitId }, include: { kitchen: { select: { timeZone: true } } } });
    const facts = await unitFacts(tx, unitId, now);
    if (!unit || !facts) throw new AppError('not_found', 'That unit is not in service.');
    const { costs } = await shopCosts(tx, unitId);
    if (!costs) throw new AppError('invalid', 'Say first what a kilowatt-hour, a cleaning and a breakdown cost you.');
    const { ways, prices } = unitWays(facts, typed, costs);
    if (ways.length < 2) throw new AppError('invalid', 'Give the price of a coil or of a unit.', 'coilPrice');
    if (!ways.some((w) => w.way === way)) throw new AppError('invalid', 'That way has no price.', 'way');
    const figures = STORED_CHOICE.write({ typed, facts, costs, result: compareWays(ways, prices) });
    const today = todayIn(unit.kitchen.timeZone, now.getTime());
    await tx.unitChoice.create({
      data: {
        unitId,
        way,
        reason,
        at: now,
        byUserId: actor.userId,
        figures,
        lookAgainOn: fromLocalDate(addDays(today, YEAR)),
      },
    });
    await writeAudit(tx, {
      at: now,
      userId: actor.userId,
      action: 'unit.decided',
      entity: 'Unit',
      entityId: unitId,
      detail: { way, reason },
    });
  });
}

/** What one thinks of a decision a year on. @throws AppError conflict */
export function lookAgain({ db, actor, now }: By, { id, note }: LookAgain): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const { count } = await tx.unitChoice.updateMany({
      where: { id, lookedAt: null },
      data: { lookedAt: now, lookedById: actor.userId, lookedNote: note },
    });
    if (count === 0) throw new AppError('conflict', 'Somebody looked at it meanwhile. Load the page again.');
    await writeAudit(tx, {
      at: now,
      userId: actor.userId,
      action: 'unit.decision_looked_at',
      entity: 'UnitChoice',
      entityId: id,
      detail: { note },
    });
  });
}
