/**
 * Least squares of a curve that is linear in most of its parameters: Σ cⱼ·φⱼ(x; α).
 *
 * For every α the best c is a linear problem, so that only α is searched for, in fewer dimensions and
 * without a start for c (variable projection: G. H. Golub and V. Pereyra, The Differentiation of
 * Pseudo-Inverses and Nonlinear Least Squares Problems Whose Variables Separate, SIAM J. Numer. Anal.
 * 10, 1973). With r = y − Φc, Dₖ = ∂Φ/∂αₖ and Φ⁺ the pseudo-inverse, equation 5.4:
 *
 *     ∂r/∂αₖ = −[(1 − ΦΦ⁺)·Dₖ·c + (Φ⁺)ᵀ·Dₖᵀ·r]
 */
import { differenceQuotients } from './difference-quotients.ts';
import { factorise, lengthFrom, solveLower, solveUpper, unitVariances } from './householder.ts';
import { fitNonlinear, type Ending, type NoFit } from './nonlinear-least-squares.ts';

export interface SeparableProblem {
  /** What was measured; each over its own standard deviation where they differ, the shapes too. */
  readonly values: readonly number[];
  readonly shapeCount: number;
  /** φⱼ at all places, a column for each j. */
  readonly shapes: (nonlinear: readonly number[], into: readonly Float64Array[]) => void;
}

export interface SeparableFit {
  readonly ok: true;
  readonly linear: readonly number[];
  readonly nonlinear: readonly number[];
  /** Of each parameter, whatever the others do, from the residuals' own size. */
  readonly linearDeviations: readonly number[];
  readonly nonlinearDeviations: readonly number[];
  /** The sum of squared residuals. */
  readonly residual: number;
  readonly degreesOfFreedom: number;
  readonly converged: boolean;
  readonly ending: Ending;
}

/** The thirteenth digit of what was measured: 2⁻⁴². */
const ROUNDING_SHARE = 2 ** -42;

/** What is known at one α. */
interface Projected {
  readonly at: readonly number[];
  readonly columns: readonly Float64Array[];
  readonly factors: ReturnType<typeof factorise>;
  readonly linear: readonly number[];
  readonly residuals: Float64Array;
}

export function fitSeparable(
  problem: SeparableProblem,
  start: readonly number[],
): SeparableFit | NoFit {
  const { values, shapeCount } = problem;
  const degreesOfFreedom = values.length - shapeCount - start.length;
  if (degreesOfFreedom <= 0) return { ok: false, refusal: 'too_few' };
  let latest: Projected | null = null;
  const projectedAt = (nonlinear: readonly number[]): Projected => {
    const isKnown = latest?.at.every((value, i) => value === nonlinear[i]) ?? false;
    if (latest === null || !isKnown) latest = project(problem, nonlinear);
    return latest;
  };
  const fit = fitNonlinear(
    {
      count: values.length,
      measuredLength: Math.hypot(...values),
      residuals: (nonlinear, into) => into.set(projectedAt(nonlinear).residuals),
      slopes: (nonlinear, into) => fillSlopes(problem, projectedAt(nonlinear), into),
    },
    start,
  );
  if (!fit.ok) return fit;
  const best = projectedAt(fit.parameters);
  const deviations = jointDeviations(problem, best, fit.residual / degreesOfFreedom);
  if (deviations === null) return { ok: false, refusal: 'undetermined' };
  return {
    ok: true,
    linear: best.linear,
    nonlinear: fit.parameters,
    linearDeviations: deviations.slice(0, shapeCount),
    nonlinearDeviations: deviations.slice(shapeCount),
    residual: fit.residual,
    degreesOfFreedom,
    converged: fit.converged,
    ending: fit.ending,
  };
}

/** The least sum of squares over the linear parameters: what a search for a start compares. */
export function leastResidualAt(problem: SeparableProblem, nonlinear: readonly number[]): number {
  return lengthFrom(project(problem, nonlinear).residuals, 0) ** 2;
}

function project(problem: SeparableProblem, nonlinear: readonly number[]): Projected {
  const columns = emptyColumns(problem);
  problem.shapes(nonlinear, columns);
  const factors = factorise(columns);
  const turned = Float64Array.from(problem.values);
  factors.turn(turned);
  const linear = solveUpper(factors, turned);
  // What is left of y beside the columns: turned back without the part that they reach.
  const residuals = turned.fill(0, 0, factors.rank);
  factors.turnBack(residuals);
  return { at: [...nonlinear], columns, factors, linear, residuals };
}

function emptyColumns({ values, shapeCount }: SeparableProblem): Float64Array[] {
  return Array.from({ length: shapeCount }, () => new Float64Array(values.length));
}

function fillSlopes(
  problem: SeparableProblem,
  projected: Projected,
  into: readonly Float64Array[],
): void {
  const { factors, linear, residuals } = projected;
  for (const [k, slopes] of shapeSlopes(problem, projected.at).entries()) {
    const column = into[k] ?? new Float64Array();
    // −(1 − ΦΦ⁺)·Dₖ·c
    column.set(combined(slopes, linear));
    factors.turn(column);
    column.fill(0, 0, factors.rank);
    // −(Φ⁺)ᵀ·Dₖᵀ·r lies in the columns' own space; where they depend on one another it is left out.
    if (factors.rank === problem.shapeCount) {
      const gradient = slopes.map((slope) => dot(slope, residuals));
      column.set(solveLower(factors, gradient), 0);
    }
    factors.turnBack(column);
    for (let row = 0; row < column.length; row += 1) column[row] = -(column[row] ?? 0);
  }
}

/** Dₖ for every k, each a column for every shape. */
function shapeSlopes(problem: SeparableProblem, nonlinear: readonly number[]): Float64Array[][] {
  const { values, shapeCount } = problem;
  const stacked = nonlinear.map(() => new Float64Array(values.length * shapeCount));
  const column = (all: Float64Array, j: number) =>
    all.subarray(j * values.length, (j + 1) * values.length);
  const columnsOf = (all: Float64Array) =>
    Array.from({ length: shapeCount }, (_, j) => column(all, j));
  differenceQuotients(
    (parameters, all) => problem.shapes(parameters, columnsOf(all)),
    nonlinear,
    stacked,
  );
  return stacked.map(columnsOf);
}

/** Standard deviations of c and α together, for residuals of this variance; null if undetermined. */
function jointDeviations(
  problem: SeparableProblem,
  { at, columns, linear }: Projected,
  variance: number,
): number[] | null {
  const bent = shapeSlopes(problem, at).map((slopes) => combined(slopes, linear));
  // What moves the curve by less than its rounding when it changes by its own size is not determined.
  const rounding = ROUNDING_SHARE * Math.hypot(...problem.values);
  const moves = bent.map((column, k) => lengthFrom(column, 0) * (Math.abs(at[k] ?? 0) || 1));
  if (moves.some((move) => move <= rounding)) return null;
  const unit = unitVariances(factorise([...columns, ...bent]));
  return unit?.map((value) => Math.sqrt(value * variance)) ?? null;
}

function combined(columns: readonly Float64Array[], factors: readonly number[]): Float64Array {
  const sum = new Float64Array(columns[0]?.length ?? 0);
  for (const [j, column] of columns.entries()) {
    const factor = factors[j] ?? 0;
    for (let row = 0; row < sum.length; row += 1) {
      sum[row] = (sum[row] ?? 0) + factor * (column[row] ?? 0);
    }
  }
  return sum;
}

function dot(left: Float64Array, right: Float64Array): number {
  let sum = 0;
  for (let row = 0; row < left.length; row += 1) sum += (left[row] ?? 0) * (right[row] ?? 0);
  return sum;
}
