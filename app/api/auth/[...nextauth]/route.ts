import NextAuth, { type NextAuthOptions } from 'next-auth';
import Credentials from 'next-auth/providers/credentials';
import { now } from '@/lib/server/clock';
import { db } from '@/lib/server/db';
import { env } from '@/lib/server/env';
import { isAppError } from '@/lib/core/errors';
import { revokeSession } from '@/lib/features/people/verbs/sessions';
import { SESSION_DAYS, signIn } from '@/lib/features/people/verbs/sign-in';

function options(): NextAuthOptions {
  return {
    secret: env().NEXTAUTH_SECRET,
    session: { strategy: 'jwt', maxAge: SESSION_DAYS * 24 * 3600 },
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
              },
            );
            return { id: s.userId, name: s.name, sid: s.sessionId };
          } catch (e) {
            // The code reaches the form, the words are its own.
            if (isAppError(e)) throw new Error(e.code);
            throw e;
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

const handler = (request: Request, props: unknown) => NextAuth(options())(request, props);
export { handler as GET, handler as POST };
