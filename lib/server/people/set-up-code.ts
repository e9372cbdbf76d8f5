import 'server-only';
import { createHmac } from 'node:crypto';
import { env } from '../process/env';

/** Digits and letters that are not taken for one another: Crockford's base 32 in lower case. */
const SIGNS = '0123456789abcdefghjkmnpqrstvwxyz';

/**
 * The code that the first owner types, so that whoever finds a new shop's address first cannot own it. Unless it is set,
 * it follows from the key that signs sessions: every app process of a shop knows the same one, and nothing need be kept.
 * 12 signs, 60 bits.
 */
export function setUpCode(): string {
  const { RIMEBOOK_SET_UP_CODE: set, NEXTAUTH_SECRET: key } = env();
  if (set) return set;
  const bytes = createHmac('sha256', key).update('set up this shop').digest();
  return Array.from(bytes.subarray(0, 12), (b) => SIGNS[b % 32])
    .join('')
    .replace(/(.{4})(?=.)/g, '$1-');
}
