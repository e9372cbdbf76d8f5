/**
 * Interval of a share, from `hits` of `n`: Wilson's score interval (E. B. Wilson 1927; recommended for small n by
 * Brown, Cai and DasGupta 2001, "Interval estimation for a binomial proportion"). `z`: 1.96 for 95 %.
 * @returns null where there is nothing to tell a share from
 */
export function shareInterval(hits: number, n: number, z = 1.959963984540054): { value: number; lo: number; hi: number } | null {
  if (n <= 0) return null;
  const p = hits / n;
  const middle = (p + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n))) / (1 + (z * z) / n);
  return { value: p, lo: Math.max(0, middle - half), hi: Math.min(1, middle + half) };
}

/** Mean with the interval that its own spread gives it, from a sum and a sum of squares; null below two. */
export function meanInterval(n: number, sum: number, squares: number, z: number): { value: number; lo: number; hi: number } | null {
  if (n < 2) return null;
  const mean = sum / n;
  const half = z * Math.sqrt(Math.max(0, squares - n * mean * mean) / (n - 1) / n);
  return { value: mean, lo: mean - half, hi: mean + half };
}
