import 'server-only';
import type { IncomingMessage } from 'node:http';
import ipaddr from 'ipaddr.js';
import { headers } from 'next/headers';
import proxyAddr from 'proxy-addr';
import { PEER } from '../process/requests';
import { env } from '../process/env';

/** The framework lets a caller write `x-forwarded-for`; who is really connected stands in PEER (requests.ts). */
export function addressOf(head: (name: string) => string | null, trusted: string): string {
  const peer = head(PEER);
  if (!peer) return 'unknown';
  const trust = trusted.split(',').flatMap((t) => t.trim() || []);
  const request = { socket: { remoteAddress: peer }, headers: { 'x-forwarded-for': head('x-forwarded-for') ?? undefined } };
  return inOneHand(proxyAddr(request as never, proxyAddr.compile(trust)));
}

/** An IPv6 network of 64 bits is in one hand, and counts as one address. */
function inOneHand(address: string): string {
  if (!ipaddr.isValid(address)) return 'unknown';
  const parsed = ipaddr.process(address);
  return parsed instanceof ipaddr.IPv6 ? ipaddr.IPv6.networkAddressFromCIDR(`${parsed.toString()}/64`).toString() : parsed.toString();
}

/** The caller's network address: who is connected, or whom a proxy named in TRUSTED_PROXIES speaks for. */
export async function callerAddress(): Promise<string> {
  const all = await headers();
  return addressOf((name) => all.get(name), env().TRUSTED_PROXIES);
}

/** The same of a request that nobody handles yet. */
export const askingAddress = ({ headers: all }: IncomingMessage): string =>
  addressOf((name) => all[name]?.toString() ?? null, env().TRUSTED_PROXIES);
