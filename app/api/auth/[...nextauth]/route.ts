import NextAuth, { type NextAuthOptions } from 'next-auth';
import Credentials from 'next-auth/providers/credentials';
import { now } from '@/lib/server/clock';
import { db } from '@/lib/server/db';
import { env } from '@/lib/server/env';
import { explain } from '@/lib/server/guard';
import { currentSessionId } from '@/lib/server/session';
import { isAppError } from '@/lib/core/errors';
import { LONGEST_SESSION_MS } from '@/lib/core/people/session-limits';
import { revokeSession } from '@/lib/features/people/verbs/sessions';
import { signIn } from '@/lib/features/people/verbs/sign-in';

function options(): NextAuthOptions {
  return {
    secret: env().NEXTAUTH_SECRET,
    session: { strategy: 'jwt', maxAge: LONGEST_SESSION_MS / 1000 },
    pages: { signIn: '/sign-in', error: '/sign-in' },
    providers: [
      Credentials({
        credentials: { email: {}, password: {} },
        async authorize(given, request) {
          const head = (name: string) => String((request.headers as Record<string, unknown> | undefined)?.[name] ?? '');
          try {
            const s = await signIn(
              { db: db(), now: now() },
              {
                email: given?.email ?? '',
                password: given?.password ?? '',
                address: head('x-forwarded-for').split(',')[0]?.trim() || 'direct',
                userAgent: head('user-agent'),
                before: await currentSessionId(),
              },
            );
            return { id: s.userId, name: s.name, sid: s.sessionId };
          } catch (e) {
            // The code reaches the form, the words are its own. Anything else would stand in the address bar word for word.
            if (isAppError(e)) throw new Error(e.code);
            throw new Error(explain(e).code);
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
