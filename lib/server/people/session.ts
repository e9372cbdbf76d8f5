import 'server-only';
import { cookies, headers } from 'next/headers';
import { getToken } from 'next-auth/jwt';
import { cache } from 'react';
import { cookieNames } from '../../core/people/cookies';
import { findLiveSession, type SignedIn } from '../../features/people/reads/sessions';
import { now } from '../process/clock';
import { db } from '../process/db';
import { env } from '../process/env';
import { readSessionToken } from './session-token';

/** The session that the cookie names, whether it still holds or not. */
export async function currentSessionId(): Promise<string | null> {
  const jar = await cookies();
  const head = await headers();
  const req = {
    headers: Object.fromEntries(head.entries()),
    cookies: Object.fromEntries(jar.getAll().map((c) => [c.name, c.value])),
  };
  const token = await getToken({
    req: req as never,
    secret: env().NEXTAUTH_SECRET,
    cookieName: cookieNames(env().NEXTAUTH_URL).session,
    decode: readSessionToken,
  });
  return typeof token?.sid === 'string' ? token.sid : null;
}

/** Who is signed in, read from the cookie and checked against the sessions on file; null when nobody. */
export const currentActor = cache(async (): Promise<SignedIn | null> => {
  const sessionId = await currentSessionId();
  return sessionId ? findLiveSession(db(), sessionId, now()) : null;
});
