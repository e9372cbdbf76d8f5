import 'server-only';
import { addDays } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { auditBy } from '../../audit/verbs/write-audit';
import { openVisitsOn, type OpenVisits } from '../../visits/reads/open-visits';
import { shopTimeZone } from '../../shop/reads/shop';
import { withinTransaction } from '../../../database/transaction';
import type { NewTimeOff } from '../../../schemas/people/people';
import type { ServiceContext } from '../../context';

/** Days off, both ends included as entered, kept half-open. Answers with the visits booked on them. @throws AppError not_found */
export function addTimeOff({ db, actor, now }: ServiceContext, input: NewTimeOff): Promise<OpenVisits> {
  return withinTransaction(db, async (tx) => {
    const person = await tx.user.findUnique({ where: { id: input.userId }, select: { id: true } });
    if (!person) throw new AppError('not_found', 'That person is not on file.');
    const until = addDays(input.to, 1);
    await tx.timeOff.create({
      data: { userId: person.id, startsOn: fromLocalDate(input.from), endsOn: fromLocalDate(until), reason: input.reason },
    });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'person.time_off_added',
        entity: 'User',
        entityId: person.id,
        detail: { from: input.from, to: input.to },
      },
    );
    return openVisitsOn(tx, { technicianId: person.id }, input.from, until, await shopTimeZone(tx));
  });
}

/** Removing it twice is no error. */
export async function removeTimeOff({ db, actor, now }: ServiceContext, id: string): Promise<void> {
  await withinTransaction(db, async (tx) => {
    const found = await tx.timeOff.findUnique({ where: { id } });
    if (!found) return;
    await tx.timeOff.delete({ where: { id } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'person.time_off_removed',
        entity: 'User',
        entityId: found.userId,
      },
    );
  });
}
