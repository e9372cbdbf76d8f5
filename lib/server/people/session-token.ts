import 'server-only';
import { decode, type JWT, type JWTDecodeParams } from 'next-auth/jwt';
import { env } from '../process/env';

/** What a session's cookie says, signed with the shop's secret or with the one before; null for any other. */
export async function readSessionToken({ token, salt }: Pick<JWTDecodeParams, 'token' | 'salt'>): Promise<JWT | null> {
  const { NEXTAUTH_SECRET, NEXTAUTH_SECRET_BEFORE } = env();
  for (const secret of [NEXTAUTH_SECRET, NEXTAUTH_SECRET_BEFORE])
    if (secret !== undefined) {
      const read = await decode({ token, secret, salt }).catch(() => null);
      if (read) return read;
    }
  return null;
}
