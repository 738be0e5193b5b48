/**
 * Nonlinear least squares: the parameters of a curve, their standard deviations, and whether to
 * believe them.
 *
 * K. Levenberg (1944) and D. W. Marquardt (1963) with the damping of H. B. Nielsen (Damping Parameter
 * in Marquardt's Method, 1999) and the scaling of J. J. Moré (The Levenberg–Marquardt Algorithm, 1978):
 * each parameter by the largest slope that it has had. Steps by QR, not by normal equations. A point is
 * called an optimum by the angle between the residuals and what the parameters can change (D. M. Bates
 * and D. G. Watts, A Relative Offset Orthogonality Convergence Criterion, 1981), never because the
 * steps have become small.
 *
 * Where some parameters enter linearly, `separable-least-squares.ts` needs a start for the others only.
 */
import { differenceQuotients, type VectorFunction } from './difference-quotients.ts';
import {
  factorise,
  lengthFrom,
  solveLeastSquares,
  unitVariances,
  type Factorised,
} from './householder.ts';

export interface NonlinearProblem {
  /** Number of residuals. */
  readonly count: number;
  /** √Σy² of what was measured, in the residuals' own units: tells which residuals are mere rounding. */
  readonly measuredLength: number;
  /** Measured less modelled; each over its own standard deviation where they differ. */
  readonly residuals: VectorFunction;
  /** d residual / d parameter, column by column; by difference quotients where it is left out. */
  readonly slopes?: (parameters: readonly number[], into: readonly Float64Array[]) => void;
}

/**
 * `stationary`: no direction lowers the residuals any more. `exact`: they are rounding. The others are
 * not converged. `stalled`: no step helps, and yet it is no optimum. `steps`: out of steps.
 */
export type Ending = 'stationary' | 'exact' | 'stalled' | 'steps';

export interface NonlinearFit {
  readonly ok: true;
  readonly parameters: readonly number[];
  /** Of each parameter, from the residuals' own size. */
  readonly standardDeviations: readonly number[];
  /** The sum of squared residuals. */
  readonly residual: number;
  readonly degreesOfFreedom: number;
  readonly converged: boolean;
  readonly ending: Ending;
  /** How often the residuals were worked out, those for difference quotients not counted. */
  readonly evaluations: number;
}

/**
 * `too_few`: no more residuals than parameters. `not_finite`: nothing to start from.
 * `undetermined`: the data don't depend on some parameter, or on two only together.
 */
export interface NoFit {
  readonly ok: false;
  readonly refusal: 'too_few' | 'not_finite' | 'undetermined';
}

/** The hardest of NIST's certified problems (MGH10 from its far start) takes 7700. */
const MOST_STEPS = 10_000;
/** The cosine of the angle between residuals and what the parameters can change, at an optimum. */
const OFFSET = 1e-10;
/** The same where rounding in the residuals ended it before: six digits need no better. */
const OFFSET_BY_ROUNDING = 1e-4;
/** A step below this part of every parameter changes nothing: 2⁻⁵² · 4. */
const LEAST_STEP = 2 ** -50;
/** Residuals below this part of what was measured are rounding, in the thirteenth digit: 2⁻⁴². */
const EXACT_SHARE = 2 ** -42;
/** Steps without damping at the end, where sums of squares no longer tell better from worse. */
const POLISHING_STEPS = 8;
/** A sum of squares is no better known than this: 2⁻⁵² times the number of terms, at most some 4000. */
const ROUNDING = 2 ** -40;
/** The first steps' damping, tried one after the other: bold, careful, timid. Settings of ours. */
const FIRST_DAMPINGS = [1e-2, 10, 1e4];

/** The best of three runs that differ in the damping they begin with. */
export function fitNonlinear(
  problem: NonlinearProblem,
  start: readonly number[],
): NonlinearFit | NoFit {
  if (problem.count <= start.length) return { ok: false, refusal: 'too_few' };
  if (!start.every(Number.isFinite)) return { ok: false, refusal: 'not_finite' };
  let best: NonlinearFit | NoFit = { ok: false, refusal: 'not_finite' };
  for (const damping of FIRST_DAMPINGS) {
    const run = new Run(problem, start);
    const fit = run.descend(damping);
    if (isBetter(fit, best)) best = fit;
    if (best.ok && best.converged) break;
  }
  return best;
}

/** A problem of a curve y(x): `values` measured at as many places, all equally well. */
export function curveProblem(
  places: readonly number[],
  values: readonly number[],
  curve: (place: number, parameters: readonly number[]) => number,
): NonlinearProblem {
  return {
    count: values.length,
    measuredLength: Math.hypot(...values),
    residuals: (parameters, into) => {
      for (const [row, value] of values.entries()) {
        into[row] = value - curve(places[row] ?? 0, parameters);
      }
    },
  };
}

function isBetter(one: NonlinearFit | NoFit, other: NonlinearFit | NoFit): boolean {
  if (!one.ok || !other.ok) return one.ok || !other.ok;
  if (one.converged !== other.converged) return one.converged;
  return one.residual < other.residual;
}

class Run {
  readonly #problem: NonlinearProblem;
  #parameters: readonly number[];
  readonly #slopes: readonly Float64Array[];
  /** The longest that each column of slopes has been. */
  readonly #scales: number[];
  #residuals: Float64Array;
  /** Of the squares of the residuals. */
  #sum: number;
  #evaluations = 0;

  constructor(problem: NonlinearProblem, start: readonly number[]) {
    this.#problem = problem;
    this.#parameters = [...start];
    this.#slopes = start.map(() => new Float64Array(problem.count));
    this.#scales = start.map(() => 0);
    this.#residuals = this.#residualsAt(start);
    this.#sum = lengthFrom(this.#residuals, 0) ** 2;
  }

  descend(firstDamping: number): NonlinearFit | NoFit {
    let factors = this.#linearise();
    let damping = firstDamping;
    let growth = 2;
    for (let step = 0; step < MOST_STEPS; step += 1) {
      if (factors === null || !Number.isFinite(this.#sum)) {
        return { ok: false, refusal: 'not_finite' };
      }
      if (this.#isExact() || this.#offset(factors) <= OFFSET) return this.#polished(factors);
      const change = this.#step(factors, damping);
      const promised = this.#promised(change, damping);
      const sumBefore = this.#sum;
      if (this.#take(change, (sum) => sum < sumBefore)) {
        const gain = (sumBefore - this.#sum) / promised;
        damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3);
        growth = 2;
        factors = this.#linearise();
      } else {
        damping *= growth;
        growth *= 2;
        if (isNothing(change, this.#parameters) || !Number.isFinite(damping)) {
          return this.#polished(factors);
        }
      }
    }
    return this.#finished(factors, 'steps');
  }

  /** Near an optimum the angle still tells better from worse where the sums of squares are rounding. */
  #polished(factors: Factorised): NonlinearFit | NoFit {
    let best = { factors, offset: this.#offset(factors) };
    for (let step = 0; step < POLISHING_STEPS && best.offset > 0; step += 1) {
      const [parameters, residuals, sum] = [this.#parameters, this.#residuals, this.#sum];
      this.#take(this.#step(best.factors, 0), (trial) => trial <= sum * (1 + ROUNDING));
      const next = this.#linearise();
      const offset = next === null ? Infinity : this.#offset(next);
      if (next === null || !(offset < best.offset)) {
        [this.#parameters, this.#residuals, this.#sum] = [parameters, residuals, sum];
        this.#linearise();
        break;
      }
      best = { factors: next, offset };
    }
    if (this.#isExact()) return this.#finished(best.factors, 'exact');
    const isOptimum = best.offset <= OFFSET_BY_ROUNDING;
    return this.#finished(best.factors, isOptimum ? 'stationary' : 'stalled');
  }

  /** Takes a step where the new sum of squares is to the caller's liking. */
  #take(change: readonly number[], isLiked: (sum: number) => boolean): boolean {
    const trial = this.#parameters.map((value, i) => value + (change[i] ?? 0));
    const residuals = this.#residualsAt(trial);
    const sum = lengthFrom(residuals, 0) ** 2;
    if (!isLiked(sum)) return false;
    [this.#parameters, this.#residuals, this.#sum] = [trial, residuals, sum];
    return true;
  }

  #residualsAt(parameters: readonly number[]): Float64Array {
    const into = new Float64Array(this.#problem.count);
    this.#problem.residuals(parameters, into);
    this.#evaluations += 1;
    return into;
  }

  #isExact(): boolean {
    return Math.sqrt(this.#sum) <= EXACT_SHARE * this.#problem.measuredLength;
  }

  /** Null where a slope is not finite. */
  #linearise(): Factorised | null {
    const { slopes, residuals } = this.#problem;
    if (slopes) slopes(this.#parameters, this.#slopes);
    else differenceQuotients(residuals, this.#parameters, this.#slopes);
    const lengths = this.#slopes.map((column) => lengthFrom(column, 0));
    if (!lengths.every(Number.isFinite)) return null;
    for (const [i, length] of lengths.entries()) {
      this.#scales[i] = Math.max(this.#scales[i] ?? 0, length);
    }
    return factorise(this.#slopes);
  }

  /** The part of the residuals that the parameters could still take away, 0 to 1. */
  #offset(factors: Factorised): number {
    const turned = Float64Array.from(this.#residuals);
    factors.turn(turned);
    const reachable = lengthFrom(turned.subarray(0, factors.rank), 0);
    return reachable / lengthFrom(turned, 0);
  }

  /** Least squares of R over √damping·D, so that the damped problem keeps its digits too. */
  #step(factors: Factorised, damping: number): number[] {
    const size = this.#scales.length;
    const columns = this.#scales.map((scale, i) => {
      const column = new Float64Array(2 * size);
      column.set(factors.upper[factors.order.indexOf(i)] ?? []);
      column[size + i] = Math.sqrt(damping) * (scale > 0 ? scale : 1);
      return column;
    });
    const turned = Float64Array.from(this.#residuals);
    factors.turn(turned);
    const target = new Float64Array(2 * size);
    target.set(turned.subarray(0, size));
    return solveLeastSquares(factorise(columns), target).map((value) => -value);
  }

  #size(change: readonly number[]): number {
    return Math.hypot(...change.map((by, i) => by * (this.#scales[i] ?? 0)));
  }

  /** By how much the linear model says that the sum of squares falls: δᵀ(JᵀJ + 2λD²)δ. */
  #promised(change: readonly number[], damping: number): number {
    return lengthFrom(this.#changed(change), 0) ** 2 + 2 * damping * this.#size(change) ** 2;
  }

  /** What a step makes of the residuals, were they linear. */
  #changed(change: readonly number[]): Float64Array {
    const changed = new Float64Array(this.#problem.count);
    for (const [i, column] of this.#slopes.entries()) {
      const by = change[i] ?? 0;
      for (let row = 0; row < changed.length; row += 1) {
        changed[row] = (changed[row] ?? 0) + by * (column[row] ?? 0);
      }
    }
    return changed;
  }

  #finished(factors: Factorised | null, ending: Ending): NonlinearFit | NoFit {
    const unit = factors === null ? null : unitVariances(factors);
    if (unit === null) return { ok: false, refusal: 'undetermined' };
    const degreesOfFreedom = this.#problem.count - this.#parameters.length;
    return {
      ok: true,
      parameters: this.#parameters,
      standardDeviations: unit.map((variance) =>
        Math.sqrt((variance * this.#sum) / degreesOfFreedom),
      ),
      residual: this.#sum,
      degreesOfFreedom,
      converged: ending === 'stationary' || ending === 'exact',
      ending,
      evaluations: this.#evaluations,
    };
  }
}

function isNothing(change: readonly number[], parameters: readonly number[]): boolean {
  return change.every((by, i) => Math.abs(by) <= LEAST_STEP * Math.abs(parameters[i] ?? 0));
}
