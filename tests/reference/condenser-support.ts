/** °F to K. */
export const fahrenheit = (t: number) => (t + 459.67) / 1.8;

/** Largest miss and how many there were; a NaN is the worst there is. */
export function worstOf(misses: readonly number[]): { worst: number; samples: number } {
  const worst = misses.reduce((w, m) => (Number.isNaN(m) ? Infinity : Math.max(w, Math.abs(m))), 0);
  return { worst, samples: misses.length };
}

/** How far a value lies outside a band; 0 inside. */
export function outside(value: number, lo: number, hi: number): number {
  return Number.isNaN(value) ? NaN : Math.max(0, lo - value, value - hi);
}
