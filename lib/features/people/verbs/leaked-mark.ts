import { createHash } from 'node:crypto';

export const LEAKED_MARK_BYTES = 5;

/** By which a password is found among twenty thousand that leak: one in fifty million others is taken for one of them. */
export const markOfLeaked = (password: string): string =>
  createHash('sha256')
    .update(password)
    .digest('hex')
    .slice(0, 2 * LEAKED_MARK_BYTES);
