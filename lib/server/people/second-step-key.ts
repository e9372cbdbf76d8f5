import 'server-only';
import { hkdfSync } from 'node:crypto';
import { env } from '../process/env';

const keyFrom = (secret: string): Buffer => Buffer.from(hkdfSync('sha256', secret, '', 'second step', 32));

/** What secrets of authenticators are sealed with; it follows from the shop's own secret (RFC 5869). */
export const secondStepKey = (): Buffer => keyFrom(env().NEXTAUTH_SECRET);

/** The same of the secret before, while it still counts. */
export function secondStepKeyBefore(): Buffer | undefined {
  const before = env().NEXTAUTH_SECRET_BEFORE;
  return before === undefined ? undefined : keyFrom(before);
}
