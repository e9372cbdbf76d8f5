import 'server-only';
import { AppError } from '../../../core/errors';
import { takeTry } from '../../../database/brakes';
import type { Tx } from '../../../database/client';

const MOST_GUESSES = { most: 8, withinMs: 15 * 60_000 };
/** Guesses at the password one has, by somebody who is signed in. */
export const guessKey = (userId: string) => `password:${userId}`;

/** Counts a guess. Whoever is at somebody's open screen may not guess without end. @throws AppError too_many */
export async function takeGuess(db: Tx, userId: string, field: string, now: Date): Promise<void> {
  if (!(await takeTry(db, guessKey(userId), MOST_GUESSES, now)))
    throw new AppError('too_many', 'Too many tries. Wait a quarter of an hour, or ask the owner to set a new password.', field);
}
