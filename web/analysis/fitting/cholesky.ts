/**
 * Symmetric positive definite systems by Cholesky's factorisation A = LLᵀ (Golub and Van Loan,
 * Matrix Computations, section 4.2). Matrices are square, row by row in one array.
 */

/**
 * L, or null where the matrix isn't positive definite to within rounding.
 * @param factor where to put L, below and on the diagonal; may be the matrix itself
 */
export function choleskyFactor(
  matrix: Float64Array,
  size: number,
  factor: Float64Array = new Float64Array(size * size),
): Float64Array | null {
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i * size + j] ?? 0;
      for (let k = 0; k < j; k += 1) {
        sum -= (factor[i * size + k] ?? 0) * (factor[j * size + k] ?? 0);
      }
      if (i > j) factor[i * size + j] = sum / (factor[j * size + j] ?? 1);
      else if (sum > 0) factor[i * size + i] = Math.sqrt(sum);
      else return null;
    }
  }
  return factor;
}

/**
 * A⁻¹b.
 * @param solution where to put it
 */
export function choleskySolve(
  factor: Float64Array,
  right: Float64Array,
  solution: Float64Array = new Float64Array(right.length),
): Float64Array {
  const size = right.length;
  for (let i = 0; i < size; i += 1) {
    let sum = right[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= (factor[i * size + k] ?? 0) * (solution[k] ?? 0);
    solution[i] = sum / (factor[i * size + i] ?? 1);
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = solution[i] ?? 0;
    for (let k = i + 1; k < size; k += 1) sum -= (factor[k * size + i] ?? 0) * (solution[k] ?? 0);
    solution[i] = sum / (factor[i * size + i] ?? 1);
  }
  return solution;
}
