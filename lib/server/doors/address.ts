import 'server-only';
import type { IncomingMessage } from 'node:http';
import ipaddr from 'ipaddr.js';
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

/** The address that a request counts for which nobody handles yet. */
export const askingAddress = ({ headers: all }: IncomingMessage): string =>
  addressOf((name) => all[name]?.toString() ?? null, env().TRUSTED_PROXIES);
