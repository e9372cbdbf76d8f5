/** Writes many rows a thousand at a time. */
export async function inPieces<T>(rows: readonly T[], write: (piece: T[]) => Promise<unknown>): Promise<void> {
  for (let i = 0; i < rows.length; i += 1000) await write(rows.slice(i, i + 1000));
}
