import 'server-only';
import { AppError } from '../../../core/errors';
import { roleInfo } from '../../../core/people/access';
import { forgetTries, giveBackTry, sweepTries, takeTry } from '../../../database/brakes';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { writeAudit } from '../../audit/verbs/write-audit';
import { mayStay } from './leaked';
import { createSession, revokeSession, revokeSessions } from './sessions';
import { decoyHash, hashPassword, passwordMatches } from './password';
import { takeCode, type StepKeys } from './second-step';

const QUARTER_MS = 15 * 60_000;
const MOST_PER_ACCOUNT = { most: 8, withinMs: QUARTER_MS };
const MOST_PER_ADDRESS = { most: 40, withinMs: QUARTER_MS };
const PLAUSIBLE = /^[^\s\p{Cc}]{3,254}$/u;
const LONGEST_PASSWORD = 1000;

/**
 * `knownDevice` is the mark of a device on which this very account has signed in before; the caller vouches for it. `before` is the
 * session that this browser holds already: it ends, for nobody sees it any more, and it could still be used.
 */
export type SignInInput = {
  email: string;
  password: string;
  address: string;
  userAgent: string;
  knownDevice: string | null;
  before?: string | null;
  /** Of the second step, where the account has one, and what its secret is sealed with, or was before the shop's secret was changed. */
  second?: { code: string } & StepKeys;
  /** A new password, from whoever was told that the one they have may not stay. */
  fresh?: string;
};

export const accountKey = (email: string) => `account:${email}`;

type At = { db: Db; now: Date };

/**
 * Checks the password and opens a session. Tries are counted by account and by network address. A device on which the
 * account has signed in before has a count of its own, so strangers' wrong tries do not shut its owner out there.
 * Whoever's password has leaked, or is against the rule, comes in with a new one alone.
 * @throws AppError too_many | not_allowed | code_wanted | code_wrong | fresh_wanted | fresh_wrong
 */
export async function signIn(at: At, input: SignInInput) {
  const { db, now } = at;
  const email = input.email.trim().toLowerCase();
  const account = input.knownDevice ? `device:${input.knownDevice}` : accountKey(email);
  const address = `address:${input.address}`;
  if (!input.knownDevice) await countTry(at, address, MOST_PER_ADDRESS);
  // What no account can have is not looked up, nor kept.
  if (!PLAUSIBLE.test(email) || input.password.length > LONGEST_PASSWORD) throw noMatch();
  await countTry(at, account, MOST_PER_ACCOUNT);

  const user = await db.user.findUnique({ where: { email } });
  const matches = await passwordMatches(user?.passwordHash ?? (await decoyHash()), input.password);
  if (!user?.active || !matches) throw noMatch();
  const stays = await mayStay(input.password, user);
  if (!stays) await checkFresh(at, user, account, input.fresh);
  if (user.secondStep) await checkSecondStep(at, user, account, input.second);
  if (!stays) await putFresh(at, user, input.fresh ?? '');

  await forgetTries(db, account);
  await giveBackTry(db, address, now);
  await sweepTries(db, now);
  const expiresAt = new Date(now.getTime() + roleInfo(user.role).sessionMs.most);
  const session = await createSession(db, { userId: user.id, userAgent: input.userAgent.slice(0, 200), createdAt: now, expiresAt });
  if (input.before) await revokeSession({ db, now }, input.before);
  return { sessionId: session.id, userId: user.id, name: user.name, role: user.role };
}

const noMatch = () => new AppError('not_allowed', 'That e-mail and password do not match.');

async function countTry({ db, now }: At, key: string, limit: typeof MOST_PER_ACCOUNT): Promise<void> {
  if (!(await takeTry(db, key, limit, now)))
    throw new AppError('too_many', 'Too many tries. Wait a quarter of an hour, or choose a new password under “Forgotten password”.');
}

/** The password was right: that it may not stay is no guess, nor is a new one that may not either. */
async function checkFresh({ db, now }: At, user: { name: string; email: string }, account: string, fresh = ''): Promise<void> {
  if (await mayStay(fresh, user)) return;
  await giveBackTry(db, account, now);
  throw fresh === ''
    ? new AppError('fresh_wanted', 'Your password is too easy to guess. Choose a new one.')
    : new AppError('fresh_wrong', 'That new password is too easy to guess as well, or against the rule.');
}

/** The new password in the old one's place; every session that was opened with the old one ends. */
async function putFresh({ db, now }: At, { id, passwordHash: old }: { id: string; passwordHash: string }, fresh: string): Promise<void> {
  const passwordHash = await hashPassword(fresh);
  await withinTransaction(db, async (tx) => {
    const { count } = await tx.user.updateMany({ where: { id, passwordHash: old }, data: { passwordHash } });
    if (count === 0) throw noMatch();
    await revokeSessions(tx, { userId: id }, now);
    await writeAudit(tx, { at: now, userId: id, action: 'person.password_changed', entity: 'User', entityId: id });
  });
}

/** The password was right: asking for the code is no guess, a code that does not fit is one. */
async function checkSecondStep(
  { db, now }: At,
  user: Parameters<typeof takeCode>[1],
  account: string,
  second: SignInInput['second'],
): Promise<void> {
  if (!second?.code) {
    await giveBackTry(db, account, now);
    throw new AppError('code_wanted', 'Give the code that your authenticator shows.');
  }
  if (!(await takeCode(db, user, second.code, second, now))) throw new AppError('code_wrong', 'That code does not fit.');
}
