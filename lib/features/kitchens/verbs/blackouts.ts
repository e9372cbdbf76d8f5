import 'server-only';
import { addDays } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { openVisitsOn, type OpenVisits } from '../../visits/reads/open-visits';
import { withinTransaction } from '../../../database/transaction';
import type { NewBlackout } from '../../../schemas/customers/kitchens';
import type { ServiceContext } from '../../context';

/**
 * Days on which a kitchen is closed to us. Entered with both days included, kept half-open. Answers with the visits
 * booked on them.
 * @throws AppError not_found
 */
export function addBlackout({ db, actor, now }: ServiceContext, input: NewBlackout): Promise<OpenVisits> {
  return withinTransaction(db, async (tx) => {
    const kitchen = await tx.kitchen.findUnique({ where: { id: input.kitchenId }, select: { id: true, timeZone: true } });
    if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.');
    const until = addDays(input.to, 1);
    await tx.kitchenBlackout.create({
      data: {
        kitchenId: kitchen.id,
        startsOn: fromLocalDate(input.from),
        endsOn: fromLocalDate(until),
        reason: input.reason,
      },
    });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'kitchen.closed_days_added',
        entity: 'Kitchen',
        entityId: kitchen.id,
        detail: { from: input.from, to: input.to },
      },
    );
    return openVisitsOn(tx, { kitchenId: kitchen.id }, input.from, until, kitchen.timeZone);
  });
}

/** Removing it twice is no error. */
export function removeBlackout({ db, actor, now }: ServiceContext, id: string): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const found = await tx.kitchenBlackout.findUnique({ where: { id } });
    if (!found) return;
    await tx.kitchenBlackout.delete({ where: { id } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'kitchen.closed_days_removed',
        entity: 'Kitchen',
        entityId: found.kitchenId,
      },
    );
  });
}
