import 'server-only';
import { AppError } from '../../../core/errors';
import { passwordProblem } from '../../../core/people/password-rule';
import { takeTry } from '../../../database/brakes';
import type { Db, Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { AskForLink, ChoosePassword, PersonId } from '../../../schemas/people/people';
import { auditBy, writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { hashToken, newToken } from '../../links/reads/link-token';
import { openPasswordLink } from '../reads/password-links';
import { guessKey } from './guesses';
import { refuseLeaked } from './leaked';
import { hashPassword } from './password';
import { forgetTries } from '../../../database/brakes';
import { revokeSessions } from './sessions';
import { accountKey } from './sign-in';

const HOUR_MS = 3_600_000;
const LASTS_MS = { invitation: 7 * 24 * HOUR_MS, forgotten: HOUR_MS };
type Purpose = keyof typeof LASTS_MS;
const MAIL_TEXT: Record<Purpose, { subject: string; why: string; lasts: string }> = {
  invitation: { subject: 'Your sign-in at', why: 'You are on file now. Choose a password here:', lasts: 'seven days' },
  forgotten: {
    subject: 'A new password at',
    why: 'Somebody, most likely you, asked for a new password. Choose it here:',
    lasts: 'one hour',
  },
};
const MOST_PER_ACCOUNT = { most: 3, withinMs: HOUR_MS };

type Settings = { now: Date; baseUrl: string };

/** Puts a letter with a fresh link in the outbox; every earlier link of the person ends. */
export async function sendPasswordLink(
  tx: Tx,
  to: { id: string; name: string; email: string },
  purpose: Purpose,
  { now, baseUrl }: Settings,
) {
  const token = newToken();
  await tx.passwordLink.updateMany({ where: { userId: to.id, usedAt: null }, data: { usedAt: now } });
  const expiresAt = new Date(now.getTime() + LASTS_MS[purpose]);
  await tx.passwordLink.create({ data: { tokenHash: hashToken(token), userId: to.id, purpose, createdAt: now, expiresAt } });
  const shop = (await tx.shopSettings.findUnique({ where: { id: 1 } }))?.name ?? 'the shop';
  const { subject, why, lasts } = MAIL_TEXT[purpose];
  const text = [
    `${to.name},`,
    '',
    why,
    `${baseUrl}/sign-in/link/${token}`,
    '',
    `The link opens once and for ${lasts}. If you did not expect this letter, leave it: nothing changes.`,
    '',
    shop,
  ].join('\n');
  await tx.outboxMessage.create({
    data: { kind: 'password_link', toEmail: to.email, subject: `${subject} ${shop}`, text, createdAt: now },
  });
}

/** For whoever forgot. Says nothing of whether anybody signs in with this address, and sends an account few letters an hour. */
export async function askForPasswordLink({ db, ...at }: { db: Db } & Settings, { email }: AskForLink): Promise<void> {
  const user = await db.user.findUnique({ where: { email: email.toLowerCase() } });
  if (!user?.active || !(await takeTry(db, `link:${user.id}`, MOST_PER_ACCOUNT, at.now))) return;
  await withinTransaction(db, (tx) => sendPasswordLink(tx, user, 'forgotten', at));
}

/** The owner has a link sent to somebody. @throws AppError not_found */
export function invite({ db, actor, now, baseUrl }: ServiceContext & { baseUrl: string }, { id }: PersonId): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const user = await tx.user.findUnique({ where: { id } });
    if (!user?.active) throw new AppError('not_found', 'That person is not on file, or is switched off.');
    await sendPasswordLink(tx, user, 'invitation', { now, baseUrl });
    await auditBy(tx, { actor, now }, { action: 'person.link_sent', entity: 'User', entityId: id });
  });
}

/**
 * Whoever holds the link chooses the password; every session of the account ends, and a lock-out by wrong tries too.
 * @throws AppError not_found — used, expired or nobody's | invalid
 */
export async function choosePassword({ db, now }: { db: Db; now: Date }, { token, password }: ChoosePassword): Promise<void> {
  const link = await openPasswordLink(db, token, now);
  if (!link) throw new AppError('not_found', 'This link is no longer good. Ask for a new one under "Forgotten password".');
  const problem = passwordProblem(password, link.user);
  if (problem) throw new AppError('invalid', problem, 'password');
  await refuseLeaked(password);
  const passwordHash = await hashPassword(password);
  await withinTransaction(db, async (tx) => {
    const { count } = await tx.passwordLink.updateMany({ where: { id: link.id, usedAt: null }, data: { usedAt: now } });
    if (count === 0) throw new AppError('not_found', 'This link has just been used.');
    const { id, email } = await tx.user.update({ where: { id: link.userId }, data: { passwordHash } });
    await revokeSessions(tx, { userId: id }, now);
    await forgetTries(tx, accountKey(email));
    await forgetTries(tx, guessKey(id));
    await writeAudit(tx, { at: now, userId: id, action: 'person.password_chosen', entity: 'User', entityId: id });
  });
}
