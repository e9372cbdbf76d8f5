/** Mulberry32: small, seeded, good enough to choose faults with. */
export type Random = ReturnType<typeof randomFrom>;

export function randomFrom(seed: number) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    chance: (p: number) => next() < p,
    whole: (below: number) => Math.floor(next() * below),
    pick: <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T,
    /** One key by its weight. */
    weighted<K extends string>(weights: Readonly<Record<K, number>>): K {
      const entries = Object.entries(weights) as [K, number][];
      let at = next() * entries.reduce((sum, [, w]) => sum + w, 0);
      for (const [key, weight] of entries) if ((at -= weight) < 0) return key;
      return entries[entries.length - 1]?.[0] as K;
    },
  };
}
