import 'server-only';
import { randomBytes } from 'node:crypto';
import { STORED_HOURS } from '../../../database/stored/shop';
import { auditBy } from '../../audit/verbs/write-audit';
import { withinTransaction } from '../../../database/transaction';
import type { NewPerson } from '../../../schemas/people/people';
import { orSay } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { refuseLeaked } from './leaked';
import { hashPassword } from './password';
import { sendPasswordLink } from './password-links';

export const PERSON_REFUSALS = { User_email_key: ['Someone signs in with this e-mail already.', 'email'] } as const;

/** Without a password a link to choose one goes to the e-mail. @throws AppError conflict — the e-mail is taken. */
export async function createPerson(
  { db, actor, now, baseUrl = '' }: ServiceContext & { baseUrl?: string },
  { password, ...data }: NewPerson,
): Promise<{ userId: string }> {
  if (password) await refuseLeaked(password);
  const passwordHash = await hashPassword(password || randomBytes(32).toString('hex'));
  const work = withinTransaction(db, async (tx) => {
    const { id } = await tx.user.create({
      data: { ...data, shifts: STORED_HOURS.write(data.shifts), onCall: STORED_HOURS.write(data.onCall), passwordHash, createdAt: now },
    });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'person.created',
        entity: 'User',
        entityId: id,
        detail: { role: data.role },
      },
    );
    if (!password) await sendPasswordLink(tx, { id, ...data }, 'invitation', { now, baseUrl });
    return { userId: id };
  });
  return orSay(work, PERSON_REFUSALS);
}
