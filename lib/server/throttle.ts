import 'server-only';
import { headers } from 'next/headers';
import { AppError } from '../core/errors';
import { now } from './clock';

const WINDOW_MS = 15 * 60_000;
const MAX_KEYS = 10_000;
const seen = new Map<string, number[]>();

/** The caller's network address, as the proxy in front tells it. */
export async function callerAddress(): Promise<string> {
  return (await headers()).get('x-forwarded-for')?.split(',')[0]?.trim() || 'direct';
}

/** Counts a call of this kind from this address. @throws AppError too_many beyond `max` in a quarter of an hour. */
export async function throttle(kind: string, max: number): Promise<void> {
  const key = `${kind}:${await callerAddress()}`;
  const t = now().getTime();
  const recent = (seen.get(key) ?? []).filter((x) => t - x < WINDOW_MS);
  if (recent.length >= max) throw new AppError('too_many', 'Too many tries from here. Wait a quarter of an hour, or phone the shop.');
  if (seen.size >= MAX_KEYS) seen.clear();
  seen.set(key, [...recent, t]);
}
