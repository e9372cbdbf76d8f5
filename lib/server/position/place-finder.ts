import 'server-only';
import { setTimeout as wait } from 'node:timers/promises';
import type { Answer, Ask } from '../../core/position';
import { Places } from '../../schemas/customers/geocoder';
import { env } from '../process/env';

/** Real time, also where the clock of the office is set for tests: the service's second is a real one. */
export const pace = { clock: () => new Date(), wait: (ms: number) => wait(ms) };

/** The service that the shop has set, or null. */
export function placeFinder(): Ask | null {
  const { RIMEBOOK_GEOCODER: url, NEXTAUTH_URL: from } = env();
  return url ? geocoder({ url, from }) : null;
}

const PATIENCE_MS = 15_000;
const MOST_BYTES = 1_000_000;

/** Asks a service with Nominatim's `search`. What its address says already, a key for instance, is kept. */
export function geocoder({ url, from }: { url: string; from: string }): Ask {
  return async (address) => {
    const to = new URL(url);
    for (const [k, v] of Object.entries({ q: address, format: 'jsonv2', addressdetails: '1', limit: '5' })) to.searchParams.set(k, v);
    try {
      // Its terms ask who is calling.
      const headers = { 'user-agent': `Rimebook (${from})`, accept: 'application/json' };
      const reply = await fetch(to, { headers, redirect: 'error', signal: AbortSignal.timeout(PATIENCE_MS) });
      const text = await reply.text();
      if (reply.status === 429 || reply.status >= 500) return { is: 'busy', said: `It answered ${reply.status}.` };
      if (reply.status === 401 || reply.status === 403) return { is: 'busy', said: `It does not let this server in (${reply.status}).` };
      if (!reply.ok) return { is: 'failed', said: `It answered ${reply.status}.` };
      return read(text);
    } catch (error) {
      const late = error instanceof Error && error.name === 'TimeoutError';
      return { is: 'busy', said: late ? `It did not answer within ${PATIENCE_MS / 1000} seconds.` : 'It cannot be reached.' };
    }
  };
}

function read(text: string): Answer {
  const unreadable: Answer = { is: 'failed', said: 'Its answer could not be read.' };
  if (text.length > MOST_BYTES) return unreadable;
  try {
    const places = Places.safeParse(JSON.parse(text));
    if (!places.success) return unreadable;
    return places.data.length === 0 ? { is: 'nothing' } : { is: 'found', candidates: places.data };
  } catch {
    return unreadable;
  }
}
