import { AsyncLocalStorage } from 'node:async_hooks';
import { randomBytes } from 'node:crypto';

export type InHand = { reference: string };

// The framework bundles this file more than once; the request in hand is one.
const held = globalThis as unknown as { rimebookInHand?: AsyncLocalStorage<InHand> };
export const inHand = (held.rimebookInHand ??= new AsyncLocalStorage<InHand>());

/** By which the request in hand is found in the log; null outside any. */
export const reference = (): string | null => inHand.getStore()?.reference ?? null;

// Without letters and digits that are taken for one another on the phone (Crockford's base 32).
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
export const newReference = (): string => [...randomBytes(8)].map((b) => LETTERS[b % LETTERS.length]).join('');
