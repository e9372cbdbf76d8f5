import 'server-only';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { NewCertificate } from '../../../schemas/equipment/refrigerant-book';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

/** @throws AppError not_found */
export function addCertificate({ db, actor, now }: ServiceContext, { expiresOn, ...c }: NewCertificate): Promise<void> {
  return withinTransaction(db, async (tx) => {
    if (!(await tx.user.findUnique({ where: { id: c.userId } }))) throw new AppError('not_found', 'That person is not on file.');
    await tx.certificate.create({ data: { ...c, expiresOn: expiresOn && fromLocalDate(expiresOn), createdAt: now } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'certificate.added',
        entity: 'User',
        entityId: c.userId,
        detail: { kind: c.kind, expiresOn },
      },
    );
  });
}

/** It stays on file for what was done under it. Twice is no error. */
export function withdrawCertificate({ db, actor, now }: ServiceContext, id: string): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const { count } = await tx.certificate.updateMany({ where: { id, withdrawnAt: null }, data: { withdrawnAt: now } });
    if (count > 0)
      await auditBy(
        tx,
        { actor, now },
        {
          action: 'certificate.withdrawn',
          entity: 'Certificate',
          entityId: id,
        },
      );
  });
}
