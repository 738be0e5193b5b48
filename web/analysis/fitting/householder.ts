/**
 * The QR factorisation of a tall matrix, for least squares that must not lose digits: normal equations
 * square the condition of a problem, and with it half of the sixteen digits of a number.
 *
 * Householder's reflections with the largest remaining column first: G. H. Golub and C. F. Van Loan,
 * Matrix Computations, 4th edition, algorithms 5.1.1 and 5.4.1.
 */

export interface Factorised {
  /** The columns of R, in the order in which they were taken; column k has k + 1 entries. */
  readonly upper: readonly Float64Array[];
  /** Which of the given columns was taken k-th. */
  readonly order: readonly number[];
  /** How many columns are independent of those taken before them, within `RANK_TOLERANCE`. */
  readonly rank: number;
  /** Qᵀv, in place; entries from `rank` on are then what no combination of the columns reaches. */
  readonly turn: (vector: Float64Array) => void;
  /** Qv, in place. */
  readonly turnBack: (vector: Float64Array) => void;
}

/** A column that keeps less than this part of its length has no digit of its own: 2⁻⁵² · 16. */
const RANK_TOLERANCE = 2 ** -48;

/** @param given columns of equal length, no fewer rows than columns; they are left as they are */
export function factorise(given: readonly Float64Array[]): Factorised {
  const columns = given.map((column) => Float64Array.from(column));
  const lengths = given.map((column) => lengthFrom(column, 0));
  const order = given.map((_, i) => i);
  const mirrors: Float64Array[] = [];
  const upper: Float64Array[] = [];
  let rank = 0;
  for (let k = 0; k < columns.length; k += 1) {
    bringForward(columns, order, k);
    const column = columns[k] ?? new Float64Array();
    const rest = lengthFrom(column, k);
    if (rest > RANK_TOLERANCE * (lengths[order[k] ?? k] ?? 0)) rank = k + 1;
    const mirror = mirrorOf(column, k, rest);
    for (const other of columns.slice(k)) reflect(other, mirror, k);
    mirrors.push(mirror);
    upper.push(column.slice(0, k + 1));
  }
  return {
    upper,
    order,
    rank,
    turn: (vector) => mirrors.forEach((mirror, k) => reflect(vector, mirror, k)),
    turnBack: (vector) => {
      for (let k = mirrors.length - 1; k >= 0; k -= 1) {
        reflect(vector, mirrors[k] ?? new Float64Array(), k);
      }
    },
  };
}

/**
 * The coefficients of the given columns that bring their sum closest to `target` (left as it is), in
 * the order of the columns; those of columns that depend on others are 0.
 */
export function solveLeastSquares(factors: Factorised, target: Float64Array): number[] {
  const turned = Float64Array.from(target);
  factors.turn(turned);
  return solveUpper(factors, turned);
}

/** Solves R·x = `turned` (its first entries), and puts x back in the order of the columns. */
export function solveUpper({ upper, order, rank }: Factorised, turned: Float64Array): number[] {
  const rest = turned.slice(0, rank);
  const solution = new Array<number>(order.length).fill(0);
  for (let k = rank - 1; k >= 0; k -= 1) {
    const column = upper[k] ?? new Float64Array();
    const value = (rest[k] ?? 0) / (column[k] ?? 1);
    solution[order[k] ?? k] = value;
    for (let row = 0; row < k; row += 1) rest[row] = (rest[row] ?? 0) - (column[row] ?? 0) * value;
  }
  return solution;
}

/**
 * Solves Rᵀ·z = b, b in the order of the columns: what a gradient is in the turned coordinates.
 * The whole of R must be of full rank.
 */
export function solveLower({ upper, order }: Factorised, gradient: readonly number[]): number[] {
  const solution: number[] = [];
  for (const [k, column] of upper.entries()) {
    let rest = gradient[order[k] ?? k] ?? 0;
    for (let row = 0; row < k; row += 1) rest -= (column[row] ?? 0) * (solution[row] ?? 0);
    solution.push(rest / (column[k] ?? 1));
  }
  return solution;
}

/**
 * The diagonal of (RᵀR)⁻¹ = (AᵀA)⁻¹ in the order of the columns: variances of the coefficients for
 * residuals of variance 1. Null where the columns depend on one another.
 */
export function unitVariances(factors: Factorised): number[] | null {
  const size = factors.order.length;
  if (factors.rank < size) return null;
  const variances = new Array<number>(size).fill(0);
  for (let k = 0; k < size; k += 1) {
    const unit = new Float64Array(size);
    unit[k] = 1;
    for (const [i, value] of solveUpper(factors, unit).entries()) {
      variances[i] = (variances[i] ?? 0) + value * value;
    }
  }
  return variances;
}

export function lengthFrom(vector: Float64Array, first: number): number {
  let sum = 0;
  for (let row = first; row < vector.length; row += 1) sum += (vector[row] ?? 0) ** 2;
  return Math.sqrt(sum);
}

/** The longest of the columns from k on, by what is left of it below row k, changes places with the k-th. */
function bringForward(columns: Float64Array[], order: number[], k: number): void {
  let best = k;
  let longest = -1;
  for (let j = k; j < columns.length; j += 1) {
    const length = lengthFrom(columns[j] ?? new Float64Array(), k);
    if (length > longest) {
      best = j;
      longest = length;
    }
  }
  const [column, place] = [columns[best], order[best]];
  if (column === undefined || place === undefined) return;
  columns.splice(best, 1);
  columns.splice(k, 0, column);
  order.splice(best, 1);
  order.splice(k, 0, place);
}

/** The unit vector, from row k on, whose mirror takes the column's rest onto its k-th row. */
function mirrorOf(column: Float64Array, k: number, rest: number): Float64Array {
  const mirror = column.slice(k);
  if (rest === 0) return mirror.fill(0);
  const head = mirror[0] ?? 0;
  // Away from the column's own sign, so that nothing is lost by subtraction.
  mirror[0] = head + (head < 0 ? -rest : rest);
  const length = lengthFrom(mirror, 0);
  return mirror.map((value) => value / length);
}

function reflect(vector: Float64Array, mirror: Float64Array, k: number): void {
  let along = 0;
  for (let row = 0; row < mirror.length; row += 1) {
    along += (mirror[row] ?? 0) * (vector[k + row] ?? 0);
  }
  if (along === 0) return;
  for (let row = 0; row < mirror.length; row += 1) {
    vector[k + row] = (vector[k + row] ?? 0) - 2 * along * (mirror[row] ?? 0);
  }
}
