import 'server-only';
import { headers } from 'next/headers';
import { env } from '../process/env';
import { addressOf } from './address';

/** The caller's network address: who is connected, or whom a proxy named in TRUSTED_PROXIES speaks for. */
export async function callerAddress(): Promise<string> {
  const all = await headers();
  return addressOf((name) => all.get(name), env().TRUSTED_PROXIES);
}
