/**
 * Coefficients of a linear problem that are integrated over one after another, each with a normal prior
 * about zero. Works on the products of all columns, the readings being the last one.
 */

interface Step {
  readonly column: number;
  /** Products with the other columns at that moment, over the pivot. */
  readonly row: Float64Array;
  readonly variance: number;
}

export class WorkedOut {
  readonly gram: Float64Array;
  /** ln of what the coefficients so far add to the determinant of the readings' covariance. */
  logDeterminant = 0;
  readonly #width: number;
  readonly #steps: Step[] = [];

  constructor(gram: Float64Array, width: number) {
    this.gram = Float64Array.from(gram);
    this.#width = width;
  }

  /** @param sigma standard deviation of the prior; infinite: nothing is known of it */
  workOut(column: number, sigma: number): void {
    const { gram } = this;
    const width = this.#width;
    const precision = Number.isFinite(sigma) ? 1 / Math.max(sigma * sigma, 1e-300) : 0;
    const pivot = Math.max((gram[column * width + column] ?? 0) + precision, 1e-300);
    const from = column * width;
    const row = new Float64Array(width);
    for (let j = 0; j < width; j += 1) row[j] = (gram[from + j] ?? 0) / pivot;
    this.#steps.push({ column, row, variance: 1 / pivot });
    // Those worked out before no longer count; the matrix stays symmetric.
    for (let i = column + 1; i < width; i += 1) {
      const product = gram[i * width + column] ?? 0;
      if (product === 0) continue;
      for (let j = column + 1; j < width; j += 1) {
        gram[i * width + j] = (gram[i * width + j] ?? 0) - product * (row[j] ?? 0);
      }
    }
    this.logDeterminant += Math.log(pivot) - (precision > 0 ? Math.log(precision) : 0);
  }

  /** The last one worked out: its estimate is row·(readings less the shapes), with that variance. */
  solutionOf(column: number): { readonly row: Float64Array; readonly variance: number } {
    const step = this.#steps.find((one) => one.column === column);
    return step ?? { row: new Float64Array(this.#width), variance: 0 };
  }

  /**
   * Estimates of all that was worked out, by column, where the later columns have these coefficients.
   * @param first the column of the first coefficient; readings follow the last
   */
  allFor(coefficients: Float64Array, first: number): Float64Array {
    const last = this.#width - 1;
    const all = new Float64Array(this.#width);
    all.set(coefficients.subarray(0, last - first), first);
    for (const { column, row } of [...this.#steps].reverse()) {
      let sum = row[last] ?? 0;
      for (let j = column + 1; j < last; j += 1) sum -= (row[j] ?? 0) * (all[j] ?? 0);
      all[column] = sum;
    }
    return all;
  }
}
