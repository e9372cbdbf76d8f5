/**
 * Lightest cut of an undirected graph (Stoer & Wagner 1997, Journal of the ACM 44(4):585–591).
 * `weight` is row-major, symmetric and not below zero; it is used up. Needs two places or more.
 */
export function lightestCut(weight: Float64Array, n: number): { value: number; side: number[] } {
  const merged: number[][] = Array.from({ length: n }, (_, i) => [i]);
  const alive = [...Array(n).keys()];
  let best = { value: Infinity, side: [0] };
  while (alive.length > 1) {
    const joined = new Float64Array(n);
    const open = new Set(alive);
    let before = alive[0]!;
    let last = alive[0]!;
    while (open.size > 0) {
      let next = -1;
      for (const place of open) if (next < 0 || joined[place]! > joined[next]!) next = place;
      open.delete(next);
      [before, last] = [last, next];
      for (const place of open) joined[place]! += weight[next * n + place]!;
    }
    if (joined[last]! < best.value) best = { value: joined[last]!, side: merged[last]!.slice() };
    merged[before]!.push(...merged[last]!);
    for (const place of alive) {
      weight[before * n + place]! += weight[last * n + place]!;
      weight[place * n + before] = weight[before * n + place]!;
    }
    alive.splice(alive.indexOf(last), 1);
  }
  return best;
}
