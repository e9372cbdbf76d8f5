import 'server-only';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import { forgetTries } from '../../../database/brakes';
import type { ProveIt } from '../../../schemas/people/people';
import type { ServiceContext } from '../../context';
import { guessKey, takeGuess } from './guesses';
import { passwordMatches } from './password';

/**
 * Notes that whoever sits at this session knows the password. Guesses are counted with those at changing it.
 * @throws AppError too_many | invalid
 */
export async function proveIt({ db, actor, now }: ServiceContext & { actor: Actor }, { password }: ProveIt): Promise<void> {
  await takeGuess(db, actor.userId, 'password', now);
  const me = await db.user.findUnique({ where: { id: actor.userId } });
  if (!me || !(await passwordMatches(me.passwordHash, password)))
    throw new AppError('invalid', 'That is not the password you have now.', 'password');
  await forgetTries(db, guessKey(actor.userId));
  await db.staffSession.updateMany({ where: { id: actor.sessionId, revokedAt: null }, data: { provenAt: now } });
}
