/**
 * Linear least squares in which chosen coefficients may not be negative, from normal equations.
 *
 * Minimises ½·xᵀGx − cᵀx by the active-set method of Lawson and Hanson (Solving Least Squares
 * Problems, 1974, chapter 23), on the Gram matrix G = AᵀWA and c = AᵀWy. A problem then costs the
 * same whatever the number of readings behind it, and there are no bad starts.
 */

export interface NormalEquations {
  /** AᵀWA, row by row; symmetric. */
  readonly gram: readonly (readonly number[])[];
  /** AᵀWy. */
  readonly moments: readonly number[];
  /** yᵀWy. */
  readonly total: number;
}

export interface LeastSquares {
  readonly coefficients: readonly number[];
  /** The weighted sum of squared residuals. */
  readonly residual: number;
}

/** A square matrix as such a list of rows, without its first few columns and rows. */
export function rowsOf(matrix: Float64Array, size: number, first = 0): number[][] {
  const rows: number[][] = [];
  for (let i = first; i < size; i += 1) {
    const row: number[] = [];
    for (let j = first; j < size; j += 1) row.push(matrix[i * size + j] ?? 0);
    rows.push(row);
  }
  return rows;
}

/** Normal equations of columns, a right-hand side and weights, all of equal length. */
export function normalEquations(
  columns: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): NormalEquations {
  const weighted = columns.map((column) => column.map((value, i) => value * (weights[i] ?? 0)));
  const gram: number[][] = columns.map(() => []);
  for (const [i, left] of weighted.entries()) {
    for (let j = 0; j <= i; j += 1) {
      const product = dot(left, columns[j] ?? []);
      (gram[i] ?? [])[j] = product;
      (gram[j] ?? [])[i] = product;
    }
  }
  return {
    gram,
    moments: weighted.map((column) => dot(column, values)),
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
  const row = gram[index] ?? [];
  const without = <T>(list: readonly T[]) => list.filter((_, i) => i !== index);
  const smaller = without(gram).map(without);
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
  const { gram, moments } = equations;
  const size = moments.length;
  const scales = gram.map((row, i) => {
    const diagonal = row[i] ?? 0;
    return diagonal > 0 ? Math.sqrt(diagonal) : 1;
  });
  let solution: number[] = new Array<number>(size).fill(0);
  const passive = free.map((isFree, i) => isFree || (like[i] ?? 0) > 0);
  // A gradient below this part of the data's own size would lower the residual by 1e-16 of it.
  const tolerance = 1e-8 * Math.sqrt(Math.max(equations.total, 0));
  solution = settle(equations, scales, passive, free, solution);
  for (let step = 0; step < 3 * size; step += 1) {
    const entering = steepest(gram, moments, scales, passive, solution, tolerance);
    if (entering === -1) break;
    passive[entering] = true;
    solution = settle(equations, scales, passive, free, solution);
  }
  return { coefficients: solution, residual: residualOf(equations, solution) };
}

/** Solves on the passive set, taking coefficients out of it until none is negative. */
function settle(
  { gram, moments }: NormalEquations,
  scales: readonly number[],
  passive: boolean[],
  free: readonly boolean[],
  start: readonly number[],
): number[] {
  let current = [...start];
  for (let step = 0; step <= passive.length; step += 1) {
    const members: number[] = [];
    for (let i = 0; i < passive.length; i += 1) if (passive[i] === true) members.push(i);
    const trial = solveOn(gram, moments, scales, members);
    let reach = 1;
    let isInside = true;
    for (const i of members) {
      const value = trial[i] ?? 0;
      if (free[i] === true || value > 0) continue;
      isInside = false;
      if (!(value <= 0)) continue;
      const from = current[i] ?? 0;
      const drop = from - value;
      reach = Math.min(reach, drop > 0 ? from / drop : 0);
    }
    if (isInside) return trial;
    current = current.map((value, i) => value + reach * ((trial[i] ?? 0) - value));
    for (const i of members) {
      if (free[i] !== true && (current[i] ?? 0) <= 1e-14 * Math.abs(trial[i] ?? 0)) {
        passive[i] = false;
        current[i] = 0;
      }
    }
  }
  return current.map((value, i) => (passive[i] === true ? value : 0));
}

/** The coefficient outside the passive set that would lower the residual fastest, or −1. */
function steepest(
  gram: readonly (readonly number[])[],
  moments: readonly number[],
  scales: readonly number[],
  passive: readonly boolean[],
  solution: readonly number[],
  tolerance: number,
): number {
  let best = -1;
  let bestSlope = tolerance;
  for (let i = 0; i < gram.length; i += 1) {
    const row = gram[i];
    if (row === undefined || passive[i] === true) continue;
    const slope = ((moments[i] ?? 0) - dot(row, solution)) / (scales[i] ?? 1);
    if (slope > bestSlope) {
      best = i;
      bestSlope = slope;
    }
  }
  return best;
}

/** Solves the unconstrained problem on some of the coefficients, by Cholesky on unit-length columns. */
function solveOn(
  gram: readonly (readonly number[])[],
  moments: readonly number[],
  scales: readonly number[],
  members: readonly number[],
): number[] {
  const count = members.length;
  const { lower, forward } = roomFor(count);
  for (let a = 0; a < count; a += 1) {
    const i = members[a] ?? 0;
    const scale = scales[i] ?? 1;
    const entries = gram[i] ?? [];
    let square = 0;
    let shared = 0;
    for (let b = 0; b < a; b += 1) {
      const j = members[b] ?? 0;
      let sum = 0;
      for (let k = 0; k < b; k += 1) {
        sum += (lower[a * count + k] ?? 0) * (lower[b * count + k] ?? 0);
      }
      const entry = (entries[j] ?? 0) / (scale * (scales[j] ?? 1));
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
  const solution = new Array<number>(moments.length).fill(0);
  for (let a = count - 1; a >= 0; a -= 1) {
    const value = (forward[a] ?? 0) / (lower[a * count + a] ?? 1);
    for (let b = 0; b < a; b += 1) {
      forward[b] = (forward[b] ?? 0) - (lower[a * count + b] ?? 0) * value;
    }
    const i = members[a] ?? 0;
    solution[i] = value / (scales[i] ?? 1);
  }
  return solution;
}

/** One system at a time is solved. */
let room = { lower: new Float64Array(256), forward: new Float64Array(16) };

function roomFor(count: number): { lower: Float64Array; forward: Float64Array } {
  if (count > room.forward.length) {
    room = { lower: new Float64Array(count * count), forward: new Float64Array(count) };
  }
  return room;
}

function residualOf(
  { gram, moments, total }: NormalEquations,
  solution: readonly number[],
): number {
  const quadratic = gram.reduce((sum, row, i) => sum + (solution[i] ?? 0) * dot(row, solution), 0);
  return Math.max(total - 2 * dot(moments, solution) + quadratic, 0);
}

function dot(left: readonly number[], right: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < left.length; i += 1) sum += (left[i] ?? 0) * (right[i] ?? 0);
  return sum;
}
