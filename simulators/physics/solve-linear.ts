/**
 * Solves A·x = b by Gaussian elimination without pivoting, which is exact enough here: every matrix
 * of the model is diagonally dominant. For the handful of sections of a rig, some ten thousand times
 * an hour of process: in place, on one flat array.
 * @param augmented A and b row by row, size · (size + 1) numbers; overwritten
 * @throws RangeError where the shapes don't match
 */
export function solveLinear(augmented: Float64Array, size: number): Float64Array {
  const width = size + 1;
  if (augmented.length !== size * width) {
    throw new RangeError(`${augmented.length} numbers are no ${size} equations`);
  }
  for (let pivot = 0; pivot < size; pivot += 1) {
    const pivotRow = pivot * width;
    for (let row = pivotRow + width; row < augmented.length; row += width) {
      const factor = at(augmented, row + pivot) / at(augmented, pivotRow + pivot);
      if (factor === 0) continue;
      for (let column = pivot; column < width; column += 1) {
        augmented[row + column] =
          at(augmented, row + column) - factor * at(augmented, pivotRow + column);
      }
    }
  }
  const solution = new Float64Array(size);
  for (let unknown = size - 1; unknown >= 0; unknown -= 1) {
    const row = unknown * width;
    let rest = at(augmented, row + size);
    for (let column = unknown + 1; column < size; column += 1) {
      rest -= at(augmented, row + column) * at(solution, column);
    }
    solution[unknown] = rest / at(augmented, row + unknown);
  }
  return solution;
}

function at(values: Float64Array, index: number): number {
  return values[index] ?? NaN;
}
