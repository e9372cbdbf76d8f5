import 'server-only';
import { AppError } from '../../core/errors';
import { takeTry } from '../../database/brakes';
import { callerAddress } from './caller';
import { now } from '../process/clock';
import { db } from '../process/db';

const WINDOW_MS = 15 * 60_000;

/** Counts a call of this kind from this address. @throws AppError too_many beyond `most` in a quarter of an hour. */
export async function throttle(kind: string, most: number): Promise<void> {
  if (!(await takeTry(db(), `${kind}:${await callerAddress()}`, { most, withinMs: WINDOW_MS }, now())))
    throw new AppError('too_many', 'Too many tries from here. Wait a quarter of an hour, or phone the shop.');
}
