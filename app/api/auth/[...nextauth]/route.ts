import { cookies } from 'next/headers';
import NextAuth, { type NextAuthOptions } from 'next-auth';
import Credentials from 'next-auth/providers/credentials';
import { callerAddress } from '@/lib/server/doors/caller';
import { now } from '@/lib/server/process/clock';
import { db } from '@/lib/server/process/db';
import { env } from '@/lib/server/process/env';
import { KNOWN_DEVICE_DAYS, knownDeviceCookie, newKnownDevice, readKnownDevice } from '@/lib/server/people/known-device';
import { explain } from '@/lib/server/doors/guard';
import { noteRefused } from '@/lib/server/people/note-refused';
import { secondStepKey, secondStepKeyBefore } from '@/lib/server/people/second-step-key';
import { currentSessionId } from '@/lib/server/people/session';
import { readSessionToken } from '@/lib/server/people/session-token';
import { isAppError } from '@/lib/core/errors';
import { cookieFlags, cookieNames } from '@/lib/core/people/cookies';
import { LONGEST_SESSION_MS } from '@/lib/core/people/session-limits';
import { revokeSession } from '@/lib/features/people/verbs/sessions';
import { signIn } from '@/lib/features/people/verbs/sign-in';

const deviceCookie = () => ({
  ...cookieFlags(env().NEXTAUTH_URL, '/api/auth'),
  maxAge: KNOWN_DEVICE_DAYS * 24 * 3600,
});

function cookiesOfOurOwn(): NextAuthOptions['cookies'] {
  const { session, form, wayBack } = cookieNames(env().NEXTAUTH_URL);
  const options = cookieFlags(env().NEXTAUTH_URL);
  return { sessionToken: { name: session, options }, csrfToken: { name: form, options }, callbackUrl: { name: wayBack, options } };
}

function options(): NextAuthOptions {
  return {
    cookies: cookiesOfOurOwn(),
    secret: env().NEXTAUTH_SECRET,
    session: { strategy: 'jwt', maxAge: LONGEST_SESSION_MS / 1000 },
    jwt: { decode: readSessionToken },
    pages: { signIn: '/sign-in', error: '/sign-in' },
    providers: [
      Credentials({
        credentials: { email: {}, password: {}, code: {}, fresh: {} },
        async authorize(given, request) {
          const userAgent = String((request.headers as Record<string, unknown> | undefined)?.['user-agent'] ?? '');
          const { email = '', password = '', code = '', fresh = '' } = given ?? {};
          const address = await callerAddress();
          const jar = await cookies();
          const knownDevice = readKnownDevice(email, jar.get(knownDeviceCookie(email))?.value);
          try {
            const s = await signIn(
              { db: db(), now: now() },
              {
                email,
                password,
                address,
                userAgent,
                knownDevice,
                before: await currentSessionId(),
                fresh,
                second: { code: code.slice(0, 40), key: secondStepKey(), keyBefore: secondStepKeyBefore() },
              },
            );
            if (!knownDevice) jar.set(knownDeviceCookie(email), newKnownDevice(email), deviceCookie());
            return { id: s.userId, name: s.name, sid: s.sessionId };
          } catch (e) {
            if (isAppError(e)) noteRefused(e.code, email, address);
            // The code reaches the form, the words are its own. Anything else would stand in the address bar word for word.
            throw new Error(isAppError(e) ? e.code : explain(e).code);
          }
        },
      }),
    ],
    callbacks: {
      jwt({ token, user }) {
        if (user) token.sid = (user as { sid?: string }).sid;
        return token;
      },
      session({ session, token }) {
        return { ...session, user: { id: token.sub, name: token.name ?? '' } };
      },
    },
    events: {
      async signOut({ token }) {
        if (typeof token?.sid === 'string') await revokeSession({ db: db(), now: now() }, token.sid);
      },
    },
  };
}

/** Far more than an e-mail, a password and a token need. */
const MOST_BYTES = 16_384;

/** What the library would answer with its own error page: a body out of all proportion, an address nobody can read. */
function refused(request: Request): Response | null {
  if (Number(request.headers.get('content-length') ?? 0) > MOST_BYTES) return new Response(null, { status: 413 });
  const callback = new URL(request.url).searchParams.get('callbackUrl');
  return callback !== null && !URL.canParse(callback, request.url) ? Response.redirect(new URL('/sign-in', env().NEXTAUTH_URL), 302) : null;
}

const handler = (request: Request, props: unknown) => refused(request) ?? NextAuth(options())(request, props);
export { handler as GET, handler as POST };
