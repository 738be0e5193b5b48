/** Slopes of a function of several parameters where nobody wrote them down. */

/** A function of parameters that fills a vector. */
export type VectorFunction = (parameters: readonly number[], into: Float64Array) => void;

/**
 * The step, as a part of the parameter. The rule of five points errs by h⁴ and by rounding/h: least
 * near the fifth root of 2⁻⁵², 7e-4, and then by some 1e-13 of the function.
 */
const STEP_SHARE = 1e-4;

/**
 * d vector / d parameter, column by column, by the symmetric rule of five points: M. Abramowitz and
 * I. A. Stegun, Handbook of Mathematical Functions, 25.3.6:
 * f′ = [f(x − 2h) − 8 f(x − h) + 8 f(x + h) − f(x + 2h)]/12h.
 * @param into a column for each parameter
 */
export function differenceQuotients(
  valuesAt: VectorFunction,
  parameters: readonly number[],
  into: readonly Float64Array[],
): void {
  const moved = [...parameters];
  for (const [place, column] of into.entries()) {
    const value = parameters[place] ?? 0;
    // A step that is exact in the parameter's own digits.
    const step = value + STEP_SHARE * (Math.abs(value) || 1) - value;
    const buffer = new Float64Array(column.length);
    column.fill(0);
    for (const [steps, factor] of RULE) {
      moved[place] = value + steps * step;
      valuesAt(moved, buffer);
      for (let row = 0; row < column.length; row += 1) {
        column[row] = (column[row] ?? 0) + (factor * (buffer[row] ?? 0)) / step;
      }
    }
    moved[place] = value;
  }
}

const RULE = [
  [-2, 1 / 12],
  [-1, -8 / 12],
  [1, 8 / 12],
  [2, -1 / 12],
] as const;
