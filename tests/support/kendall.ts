/** Kendall's tau-b of pairs: 1 where both orders agree, 0 where one says nothing of the other (Kendall 1945, ties counted out). */
export function kendallTau(pairs: readonly (readonly [number, number])[]): number {
  let [agree, tiesA, tiesB, all] = [0, 0, 0, 0];
  pairs.forEach(([a, b], i) => {
    for (const [c, d] of pairs.slice(i + 1)) {
      const [x, y] = [Math.sign(a - c), Math.sign(b - d)];
      agree += x * y;
      all++;
      if (x === 0) tiesA++;
      if (y === 0) tiesB++;
    }
  });
  return agree / Math.sqrt((all - tiesA) * (all - tiesB));
}
