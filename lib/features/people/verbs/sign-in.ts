import 'server-only';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { createSession } from '../reads/sessions';
import { decoyHash, passwordMatches } from './password';

const WINDOW_MS = 15 * 60_000;
const MAX_PER_EMAIL = 8;
const MAX_PER_ADDRESS = 40;
export const SESSION_DAYS = 30;

export type SignInInput = { email: string; password: string; address: string; userAgent: string };

/**
 * Checks the password and opens a session. Throttled by e-mail and by network address over 15 minutes.
 * @throws AppError too_many | not_allowed
 */
export async function signIn({ db, now }: { db: Db; now: Date }, input: SignInInput) {
  const email = input.email.trim().toLowerCase();
  const since = new Date(now.getTime() - WINDOW_MS);
  const keys = { email: `email:${email}`, address: `address:${input.address}` };
  const failures = (key: string) => db.signInAttempt.count({ where: { key, succeeded: false, at: { gt: since } } });
  if ((await failures(keys.email)) >= MAX_PER_EMAIL || (await failures(keys.address)) >= MAX_PER_ADDRESS)
    throw new AppError('too_many', 'Too many tries. Wait a quarter of an hour, or ask the owner to reset the password.');

  const user = await db.user.findUnique({ where: { email } });
  const matches = await passwordMatches(user?.passwordHash ?? (await decoyHash()), input.password);
  const succeeded = matches && !!user?.active;
  await db.signInAttempt.createMany({ data: Object.values(keys).map((key) => ({ key, at: now, succeeded })) });
  if (!user || !succeeded) throw new AppError('not_allowed', 'That e-mail and password do not match.');

  await db.signInAttempt.deleteMany({ where: { at: { lt: new Date(now.getTime() - 24 * 3600_000) } } });
  const expiresAt = new Date(now.getTime() + SESSION_DAYS * 24 * 3600_000);
  const session = await createSession(db, { userId: user.id, userAgent: input.userAgent.slice(0, 200), createdAt: now, expiresAt });
  return { sessionId: session.id, userId: user.id, name: user.name, role: user.role };
}
