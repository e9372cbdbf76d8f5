import { RandomStream } from '../numerics/random';

/** A seeded stream of uniform numbers in [0, 1). */
export type Random = () => number;

export function seededRandom(seed: number): Random {
  const stream = new RandomStream(seed, 'planning');
  return () => stream.next();
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
