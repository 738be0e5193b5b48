/**
 * Linear least squares in which chosen coefficients may not be negative, from normal equations.
 *
 * Minimises ½·xᵀGx − cᵀx by the active-set method of Lawson and Hanson (Solving Least Squares
 * Problems, 1974, chapter 23), on the Gram matrix G = AᵀWA and c = AᵀWy. A problem then costs the
 * same whatever the number of readings behind it, and there are no bad starts.
 */

export interface NormalEquations {
  /** AᵀWA, row by row; symmetric. */
  readonly gram: Float64Array;
  /** AᵀWy. */
  readonly moments: Float64Array;
  /** yᵀWy. */
  readonly total: number;
}

export interface LeastSquares {
  readonly coefficients: readonly number[];
  /** The weighted sum of squared residuals. */
  readonly residual: number;
}

/** Normal equations of columns, a right-hand side and weights, all of equal length. */
export function normalEquations(
  columns: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): NormalEquations {
  const size = columns.length;
  const weighted = columns.map((column) => column.map((value, i) => value * (weights[i] ?? 0)));
  const gram = new Float64Array(size * size);
  for (const [i, left] of weighted.entries()) {
    for (let j = 0; j <= i; j += 1) {
      const product = dot(left, columns[j] ?? []);
      gram[i * size + j] = product;
      gram[j * size + i] = product;
    }
  }
  return {
    gram,
    moments: Float64Array.from(weighted, (column) => dot(column, values)),
    total: values.reduce((sum, value, i) => sum + value * value * (weights[i] ?? 0), 0),
  };
}

/**
 * The same problem with coefficient `index` held at a value that is still to be chosen; the others
 * keep their order.
 */
export function holding(
  { gram, moments, total }: NormalEquations,
  index: number,
): (value: number) => NormalEquations {
  const size = moments.length;
  const row = gram.subarray(index * size, (index + 1) * size);
  const without = (list: Float64Array) => list.filter((_, i) => i !== index);
  const smaller = gram.filter((_, at) => at % size !== index && Math.floor(at / size) !== index);
  const [others, couplings] = [without(moments), without(row)];
  return (value) => ({
    gram: smaller,
    moments: others.map((moment, i) => moment - (couplings[i] ?? 0) * value),
    total: total - 2 * (moments[index] ?? 0) * value + (row[index] ?? 0) * value * value,
  });
}

/**
 * Solves for all coefficients; those for which `free` is false come out ≥ 0.
 * @param like the coefficients of a similar problem: those above 0 there are tried first, which
 *   saves most of the work and changes nothing in the result
 */
export function solveNonnegative(
  equations: NormalEquations,
  free: readonly boolean[],
  like: readonly number[] = [],
): LeastSquares {
  const { gram, moments, total } = equations;
  const size = moments.length;
  const work = roomFor(size);
  const { scales, solution } = work;
  const passive: boolean[] = [];
  for (let i = 0; i < size; i += 1) {
    const diagonal = gram[i * size + i] ?? 0;
    scales[i] = diagonal > 0 ? Math.sqrt(diagonal) : 1;
    solution[i] = 0;
    passive.push(free[i] === true || (like[i] ?? 0) > 0);
  }
  // A gradient below this part of the data's own size would lower the residual by 1e-16 of it.
  const tolerance = 1e-8 * Math.sqrt(Math.max(total, 0));
  settle(equations, passive, free, work);
  for (let step = 0; step < 3 * size; step += 1) {
    const entering = steepest(equations, passive, work, tolerance);
    if (entering === -1) break;
    passive[entering] = true;
    settle(equations, passive, free, work);
  }
  const coefficients: number[] = [];
  for (let i = 0; i < size; i += 1) coefficients.push(solution[i] ?? 0);
  return { coefficients, residual: residualOf(equations, solution) };
}

/** One problem at a time is solved, and many follow each other: they find their room here. */
interface Room {
  readonly scales: Float64Array;
  readonly solution: Float64Array;
  readonly trial: Float64Array;
  readonly members: Int32Array;
  readonly lower: Float64Array;
  readonly forward: Float64Array;
}

let room = newRoom(16);

function newRoom(size: number): Room {
  return {
    scales: new Float64Array(size),
    solution: new Float64Array(size),
    trial: new Float64Array(size),
    members: new Int32Array(size),
    lower: new Float64Array(size * size),
    forward: new Float64Array(size),
  };
}

function roomFor(size: number): Room {
  if (size > room.forward.length) room = newRoom(size);
  return room;
}

/** Solves on the passive set, taking coefficients out of it until none is negative. */
function settle(
  equations: NormalEquations,
  passive: boolean[],
  free: readonly boolean[],
  work: Room,
): void {
  const { solution, trial, members } = work;
  const size = passive.length;
  for (let step = 0; step <= size; step += 1) {
    let count = 0;
    for (let i = 0; i < size; i += 1) {
      if (passive[i] !== true) continue;
      members[count] = i;
      count += 1;
    }
    solveOn(equations, count, work);
    let reach = 1;
    let isInside = true;
    for (let a = 0; a < count; a += 1) {
      const i = members[a] ?? 0;
      const value = trial[i] ?? 0;
      if (free[i] === true || value > 0) continue;
      isInside = false;
      const from = solution[i] ?? 0;
      const drop = from - value;
      reach = Math.min(reach, drop > 0 ? from / drop : 0);
    }
    for (let i = 0; i < size; i += 1) {
      const value = solution[i] ?? 0;
      solution[i] = isInside ? (trial[i] ?? 0) : value + reach * ((trial[i] ?? 0) - value);
    }
    if (isInside) return;
    for (let a = 0; a < count; a += 1) {
      const i = members[a] ?? 0;
      if (free[i] !== true && (solution[i] ?? 0) <= 1e-14 * Math.abs(trial[i] ?? 0)) {
        passive[i] = false;
        solution[i] = 0;
      }
    }
  }
}

/** The coefficient outside the passive set that would lower the residual fastest, or −1. */
function steepest(
  { gram, moments }: NormalEquations,
  passive: readonly boolean[],
  { scales, solution }: Room,
  tolerance: number,
): number {
  const size = moments.length;
  let best = -1;
  let bestSlope = tolerance;
  for (let i = 0; i < size; i += 1) {
    if (passive[i] === true) continue;
    const slope = ((moments[i] ?? 0) - rowTimes(gram, i, solution, size)) / (scales[i] ?? 1);
    if (slope > bestSlope) {
      best = i;
      bestSlope = slope;
    }
  }
  return best;
}

/** Solves the unconstrained problem on the members, by Cholesky on unit-length columns; the rest of `trial` is 0. */
function solveOn(
  { gram, moments }: NormalEquations,
  count: number,
  { scales, trial, members, lower, forward }: Room,
): void {
  const size = moments.length;
  for (let a = 0; a < count; a += 1) {
    const i = members[a] ?? 0;
    const scale = scales[i] ?? 1;
    let square = 0;
    let shared = 0;
    for (let b = 0; b < a; b += 1) {
      const j = members[b] ?? 0;
      let sum = 0;
      for (let k = 0; k < b; k += 1) {
        sum += (lower[a * count + k] ?? 0) * (lower[b * count + k] ?? 0);
      }
      const entry = (gram[i * size + j] ?? 0) / (scale * (scales[j] ?? 1));
      const value = (entry - sum) / (lower[b * count + b] ?? 1);
      lower[a * count + b] = value;
      square += value * value;
      shared += value * (forward[b] ?? 0);
    }
    // Nearly parallel columns: a pivot is never let below rounding.
    const pivot = Math.sqrt(Math.max(1 - square, 1e-13));
    lower[a * count + a] = pivot;
    forward[a] = ((moments[i] ?? 0) / scale - shared) / pivot;
  }
  trial.fill(0);
  for (let a = count - 1; a >= 0; a -= 1) {
    const value = (forward[a] ?? 0) / (lower[a * count + a] ?? 1);
    for (let b = 0; b < a; b += 1) {
      forward[b] = (forward[b] ?? 0) - (lower[a * count + b] ?? 0) * value;
    }
    const i = members[a] ?? 0;
    trial[i] = value / (scales[i] ?? 1);
  }
}

function residualOf({ gram, moments, total }: NormalEquations, solution: Float64Array): number {
  const size = moments.length;
  let quadratic = 0;
  let explained = 0;
  for (let i = 0; i < size; i += 1) {
    const value = solution[i] ?? 0;
    quadratic += value * rowTimes(gram, i, solution, size);
    explained += (moments[i] ?? 0) * value;
  }
  return Math.max(total - 2 * explained + quadratic, 0);
}

function rowTimes(gram: Float64Array, row: number, vector: Float64Array, size: number): number {
  let sum = 0;
  for (let j = 0; j < size; j += 1) sum += (gram[row * size + j] ?? 0) * (vector[j] ?? 0);
  return sum;
}

function dot(left: readonly number[], right: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < left.length; i += 1) sum += (left[i] ?? 0) * (right[i] ?? 0);
  return sum;
}
