import 'server-only';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { revokeSessions } from './sessions';
import { withinTransaction } from '../../../database/transaction';
import type { SetActive } from '../../../schemas/people/people';
import { staleError } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { keepAnOwner, keepsThePeople } from './last-owner';
import { refuseWithOpenVisits } from './no-open-visits';

/** Deactivating ends every session of the person; what they did stays on file. @throws AppError not_found | conflict */
export function setActive({ db, actor, now }: ServiceContext, { id, version, active }: SetActive): Promise<void> {
  const on = active === 'yes';
  return withinTransaction(db, async (tx) => {
    const person = await tx.user.findUnique({ where: { id } });
    if (!person) throw new AppError('not_found', 'That person is not on file.');
    if (!on) {
      if (keepsThePeople(person.role)) await keepAnOwner(tx, id);
      await refuseWithOpenVisits(tx, person);
    }
    const { count } = await tx.user.updateMany({ where: { id, version }, data: { active: on, version: { increment: 1 } } });
    if (count === 0) throw await staleError(tx, 'User', id, 'this person');
    if (!on) await revokeSessions(tx, { userId: id }, now);
    await auditBy(
      tx,
      { actor, now },
      {
        action: on ? 'person.activated' : 'person.deactivated',
        entity: 'User',
        entityId: id,
      },
    );
  });
}
