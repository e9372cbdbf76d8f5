import type { Candidate } from './candidates';

/** What a place-finding service said. `busy`: the service as a whole, so that the next address would fare no better. */
export type Answer = { is: 'found'; candidates: readonly Candidate[] } | { is: 'nothing' } | { is: 'failed' | 'busy'; said: string };
export type Ask = (address: string) => Promise<Answer>;
