/** The interval of one coefficient, whatever the others do: profile likelihood. */
import type { Estimate } from './conclusions.ts';
import {
  holding,
  solveNonnegative,
  type LeastSquares,
  type NormalEquations,
} from './nonnegative-least-squares.ts';

interface Profile {
  readonly equations: NormalEquations;
  readonly free: readonly boolean[];
  /** The solution with every coefficient at its best. */
  readonly best: LeastSquares;
  /** By how much the weights overrate the data. */
  readonly scale: number;
  readonly degreesOfFreedom: number;
  /** Which coefficient. */
  readonly index: number;
}

/** Points between the ends at which the estimate is averaged. */
const AVERAGED = 5;
/** Steps of bracketing and of closing in on an end. */
const OUTWARD_STEPS = 40;
const INWARD_STEPS = 8;

/**
 * The 90 % interval: all values at which the sum of squares is no more than t² above its least
 * (t the 95 % point of Student's distribution), refitting the other coefficients at each. The
 * estimate is the mean over that interval, weighted by likelihood: where several mixtures fit alike,
 * the best one is an accident.
 */
export function profileEstimate(profile: Profile): Estimate {
  const { equations, free, best, scale, index } = profile;
  const others = free.filter((_, i) => i !== index);
  const held = holding(equations, index);
  let like = best.coefficients.filter((_, i) => i !== index);
  const excessAt = (value: number) => {
    const { residual, coefficients } = solveNonnegative(held(value), others, like);
    like = [...coefficients];
    return Math.max(residual - best.residual, 0) / scale;
  };
  const threshold = studentT95(profile.degreesOfFreedom) ** 2;
  const middle = best.coefficients[index] ?? 0;
  // The width if all others were known: the true one can only be larger.
  const curvature = equations.gram[index]?.[index] ?? 1;
  const least = Math.sqrt((threshold * scale) / Math.max(curvature, Number.MIN_VALUE));
  const floor = free[index] === true ? -Infinity : 0;
  const low = endOf(excessAt, threshold, middle, -least, floor);
  const high = endOf(excessAt, threshold, middle, least, Infinity);

  let weight = 0;
  let sum = 0;
  for (let i = 0; i < AVERAGED; i += 1) {
    const value = low + ((high - low) * (i + 0.5)) / AVERAGED;
    const likelihood = Math.exp(-excessAt(value) / 2);
    weight += likelihood;
    sum += likelihood * value;
  }
  const estimate = weight > 0 ? sum / weight : middle;
  return { estimate: Math.min(Math.max(estimate, low), high), low, high };
}

/** Goes outward until the excess passes the threshold, then closes in; stops at `bound`. */
function endOf(
  excessAt: (value: number) => number,
  threshold: number,
  from: number,
  firstStep: number,
  bound: number,
): number {
  const clamp = (value: number) => (firstStep < 0 ? Math.max(value, bound) : value);
  let inside = from;
  let insideRoot = 0;
  let step = firstStep;
  let outside = from;
  let outsideRoot = 0;
  const root = Math.sqrt(threshold);
  for (let i = 0; i < OUTWARD_STEPS && outsideRoot <= root; i += 1) {
    inside = outside;
    insideRoot = outsideRoot;
    if (inside === bound) return bound;
    outside = clamp(from + step);
    outsideRoot = Math.sqrt(excessAt(outside));
    step *= 2;
  }
  if (outsideRoot <= root) return outside;
  // The root of the excess is nearly straight, so that a secant lands close; halving keeps it safe.
  for (let i = 0; i < INWARD_STEPS; i += 1) {
    const share = (root - insideRoot) / (outsideRoot - insideRoot);
    const trial = inside + (outside - inside) * Math.min(Math.max(share, 0.1), 0.9);
    const trialRoot = Math.sqrt(excessAt(trial));
    if (Math.abs(trialRoot - root) < 0.05 * root) return trial;
    if (trialRoot <= root) {
      inside = trial;
      insideRoot = trialRoot;
    } else {
      outside = trial;
      outsideRoot = trialRoot;
    }
  }
  return outside;
}

/**
 * 95 % point of Student's t: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.5,
 * first three terms of the expansion about the normal quantile 1.6449; within 1 % from 3 degrees on.
 */
function studentT95(degreesOfFreedom: number): number {
  const x = 1.6449;
  const v = degreesOfFreedom;
  const g1 = (x ** 3 + x) / 4;
  const g2 = (5 * x ** 5 + 16 * x ** 3 + 3 * x) / 96;
  const g3 = (3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / 384;
  return x + g1 / v + g2 / v ** 2 + g3 / v ** 3;
}
