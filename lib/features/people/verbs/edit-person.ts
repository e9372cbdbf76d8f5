import 'server-only';
import { STORED_HOURS } from '../../../database/stored/shop';
import { takesVisits } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { EditPerson } from '../../../schemas/people/people';
import { orSay, staleError, writeEdit } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { PERSON_REFUSALS } from './create-person';
import { keepAnOwner, keepsThePeople } from './last-owner';
import { refuseWithOpenVisits } from './no-open-visits';

/** A change of role takes hold with the next page the person opens. @throws AppError not_found | conflict */
export function editPerson({ db, actor, now }: ServiceContext, { id, version, ...data }: EditPerson): Promise<void> {
  const work = withinTransaction(db, async (tx) => {
    const before = await tx.user.findUnique({ where: { id } });
    if (!before) throw new AppError('not_found', 'That person is not on file.');
    if (keepsThePeople(before.role) && before.active && !keepsThePeople(data.role)) await keepAnOwner(tx, id, 'role');
    if (takesVisits(before) && !takesVisits(data)) await refuseWithOpenVisits(tx, before, 'role');
    const { count } = await tx.user.updateMany({
      where: { id, version },
      data: { ...data, shifts: STORED_HOURS.write(data.shifts), onCall: STORED_HOURS.write(data.onCall), version: { increment: 1 } },
    });
    if (count === 0) throw await staleError(tx, 'User', id, 'this person');
    await writeEdit(
      tx,
      { actor, now },
      { action: 'person.edited', entity: 'User', id },
      { ...before, shifts: STORED_HOURS.read(before.shifts), onCall: STORED_HOURS.read(before.onCall) },
      data,
    );
  });
  return orSay(work, PERSON_REFUSALS);
}
