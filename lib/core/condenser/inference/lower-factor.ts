/**
 * Cholesky's lower factor of the first n rows of a symmetric matrix, whose rows are `width` apart, into `into`, which may be the matrix
 * itself; the diagonal is raised by `damping` of itself. False where the matrix is not positive definite.
 */
export function lowerFactor(matrix: Float64Array, into: Float64Array, n: number, width: number, damping = 0): boolean {
  for (let i = 0; i < n; i++) {
    for (let k = 0; k <= i; k++) {
      let sum = matrix[i * width + k]!;
      if (i === k) sum += damping * sum;
      for (let l = 0; l < k; l++) sum -= into[i * width + l]! * into[k * width + l]!;
      if (i === k && !(sum > 0)) return false;
      into[i * width + k] = i === k ? Math.sqrt(sum) : sum / into[k * width + k]!;
    }
  }
  return true;
}
