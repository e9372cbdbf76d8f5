import 'server-only';
import { hkdfSync } from 'node:crypto';
import { env } from '../process/env';

/** What secrets of authenticators are sealed with; it follows from the shop's own secret (RFC 5869). */
export const secondStepKey = (): Buffer => Buffer.from(hkdfSync('sha256', env().NEXTAUTH_SECRET, '', 'second step', 32));
