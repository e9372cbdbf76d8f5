/** Solves A·x = b by elimination with partial pivoting; A is row-major n×n and, like b, is overwritten. False if singular. */
export function solveInPlace(A: Float64Array, b: Float64Array): boolean {
  const n = b.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(A[i * n + k]!) > Math.abs(A[pivot * n + k]!)) pivot = i;
    if (!(Math.abs(A[pivot * n + k]!) > 0)) return false;
    if (pivot !== k) {
      for (let j = k; j < n; j++) [A[k * n + j], A[pivot * n + j]] = [A[pivot * n + j]!, A[k * n + j]!];
      [b[k], b[pivot]] = [b[pivot]!, b[k]!];
    }
    for (let i = k + 1; i < n; i++) {
      const f = A[i * n + k]! / A[k * n + k]!;
      if (f === 0) continue;
      for (let j = k + 1; j < n; j++) A[i * n + j]! -= f * A[k * n + j]!;
      b[i]! -= f * b[k]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let j = i + 1; j < n; j++) sum -= A[i * n + j]! * b[j]!;
    b[i] = sum / A[i * n + i]!;
  }
  return b.every(Number.isFinite);
}
