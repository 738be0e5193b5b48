/**
 * Solves A·x = b by Gaussian elimination without pivoting, which is exact enough here: every matrix
 * of the model is diagonally dominant. For the handful of sections of a rig.
 * @throws RangeError where the shapes don't match
 */
export function solveLinear(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): number[] {
  const size = right.length;
  const rows = matrix.map((row, index) => Float64Array.from([...row, at(right, index)]));
  for (let pivot = 0; pivot < size; pivot += 1) {
    for (let row = pivot + 1; row < size; row += 1) {
      const factor = at(at(rows, row), pivot) / at(at(rows, pivot), pivot);
      for (let column = pivot; column <= size; column += 1) {
        at(rows, row)[column] = at(at(rows, row), column) - factor * at(at(rows, pivot), column);
      }
    }
  }
  const solution = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row -= 1) {
    let rest = at(at(rows, row), size);
    for (let column = row + 1; column < size; column += 1) {
      rest -= at(at(rows, row), column) * at(solution, column);
    }
    solution[row] = rest / at(at(rows, row), row);
  }
  return solution;
}

function at<T>(values: ArrayLike<T>, index: number): T {
  const value = values[index];
  if (value === undefined)
    throw new RangeError(`there is no entry ${index} among ${values.length}`);
  return value;
}
