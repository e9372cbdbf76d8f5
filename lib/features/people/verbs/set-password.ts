import 'server-only';
import { passwordProblem } from '../../../core/people/password-rule';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { forgetTries } from '../../../database/brakes';
import { revokeSessions } from './sessions';
import { withinTransaction } from '../../../database/transaction';
import type { ChangePassword, SetPassword } from '../../../schemas/people/people';
import type { ServiceContext } from '../../context';
import { guessKey, takeGuess } from './guesses';
import { refuseLeaked } from './leaked';
import { hashPassword, passwordMatches } from './password';
import { accountKey } from './sign-in';

async function save(ctx: ServiceContext, userId: string, password: string, keepSession: string | null, action: string) {
  const { db, actor, now } = ctx;
  const person = await db.user.findUnique({ where: { id: userId } });
  if (!person) throw new AppError('not_found', 'That person is not on file.');
  const problem = passwordProblem(password, person);
  if (problem) throw new AppError('invalid', problem, 'password');
  await refuseLeaked(password);
  const passwordHash = await hashPassword(password);
  await withinTransaction(db, async (tx) => {
    await tx.user.update({ where: { id: userId }, data: { passwordHash } });
    await revokeSessions(tx, { userId, id: keepSession ? { not: keepSession } : undefined }, now);
    // A person locked out by wrong tries can sign in again at once.
    await forgetTries(tx, accountKey(person.email));
    await forgetTries(tx, guessKey(userId));
    await auditBy(tx, { actor, now }, { action, entity: 'User', entityId: userId });
  });
}

/** The owner sets someone's password; the person is signed out everywhere. @throws AppError not_found | invalid */
export const setPassword = (ctx: ServiceContext, input: SetPassword): Promise<void> =>
  save(ctx, input.id, input.password, null, 'person.password_set');

/**
 * One's own password; every other session of one's own ends.
 * @throws AppError too_many | invalid — the current one does not match, or the new one is weak.
 */
export async function changePassword(
  ctx: ServiceContext & { actor: { userId: string; sessionId: string } },
  input: ChangePassword,
): Promise<void> {
  await takeGuess(ctx.db, ctx.actor.userId, 'current', ctx.now);
  const me = await ctx.db.user.findUnique({ where: { id: ctx.actor.userId } });
  if (!me || !(await passwordMatches(me.passwordHash, input.current)))
    throw new AppError('invalid', 'That is not the password you have now.', 'current');
  await save(ctx, me.id, input.password, ctx.actor.sessionId, 'person.password_changed');
}
