import type { Permission } from './access';
import { isOneOf } from '../typed/closed-set';

/** What could harm the shop, or carry everything out of it, asks for the password again (OWASP ASVS 5.0, 7.5.3). */
const ASKS_PROOF = ['manage:people', 'export:equipment', 'export:everything', 'secure:self'] as const satisfies readonly Permission[];

export const asksProof = (permission: Permission): boolean => isOneOf<Permission>(ASKS_PROOF, permission);

/** What is an administrator's opens to a sign-in with a second step alone, where the shop asks for one (OWASP ASVS 4.0.3, 4.3.1). */
const ASKS_STEP = ['manage:people', 'export:everything'] as const satisfies readonly Permission[];

export const asksStep = (permission: Permission): boolean => isOneOf<Permission>(ASKS_STEP, permission);

const MINUTE = 60_000;
/** How long a password given lets one open such a page or file; what was opened in time may be finished. */
const LASTS_MS = { open: 30 * MINUTE, finish: 60 * MINUTE };

export const isProven = (provenAt: Date, now: Date, what: keyof typeof LASTS_MS): boolean =>
  now.getTime() - provenAt.getTime() < LASTS_MS[what];
