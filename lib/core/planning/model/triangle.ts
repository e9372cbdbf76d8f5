/** True if no way through a third place is shorter than the direct way. */
export function hasTriangle(matrix: Float64Array, places: number): boolean {
  for (let k = 0; k < places; k++)
    for (let i = 0; i < places; i++) {
      const first = matrix[i * places + k]!;
      for (let j = 0; j < places; j++) {
        if (first + matrix[k * places + j]! < matrix[i * places + j]! - 1e-9) return false;
      }
    }
  return true;
}
