/** Letters to put in, leave out or change to come from one word to the other (Levenshtein 1966). */
export function distance(a: string, b: string): number {
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++)
      row.push(Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)));
    last = row;
  }
  return last[b.length] ?? 0;
}
