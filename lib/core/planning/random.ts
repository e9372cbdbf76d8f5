/** A seeded stream of uniform numbers in [0, 1). The same seed gives the same stream on every machine. */
export type Random = () => number;

/**
 * Mulberry32 (Tommy Ettinger, public domain): 32 bits of state, period 2^32.
 * Enough for a search that draws a few million numbers; not for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A whole number from `low` to `high`, both included. */
export function between(random: Random, low: number, high: number): number {
  return low + Math.floor(random() * (high - low + 1));
}

/** Fisher–Yates, in place. */
export function shuffle<T>(random: Random, items: T[]): T[] {
  for (let i = items.length - 1; i > 0; i--) {
    const j = between(random, 0, i);
    const held = items[i]!;
    items[i] = items[j]!;
    items[j] = held;
  }
  return items;
}
