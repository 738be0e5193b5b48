/**
 * The rise of a valved-off system taken apart: steady inflow and what levels off.
 *
 * P(t) = P₀ + L·t + Σ Mᵢ·(1 − e^(−t/τᵢ)) + D·√t, with L, Mᵢ, D ≥ 0 on a fixed grid of τ. All but τ
 * is linear, so there are no bad starts. Which τ it was, a hold of minutes can't tell; so nothing is read off the best fit
 * alone: an interval holds every value for which *some* mixture fits nearly as well (profile
 * likelihood).
 */
import type { Estimate } from './conclusions.ts';
import {
  holding,
  normalEquations,
  solveNonnegative,
  type NormalEquations,
} from './nonnegative-least-squares.ts';
import { median } from './median.ts';
import { profileEstimate } from './profile-estimate.ts';
import type { RisePoint } from './rise-points.ts';
import { SIGMA_PER_MAD } from './samples.ts';

export interface RiseFit {
  /** Pressure at isolation, Pa. */
  readonly startPa: number;
  /** Steady inflow L, Pa/s. */
  readonly leakPaPerS: Estimate;
  /** What levels off, as it will stand at the end of the hold, Pa. */
  readonly moisturePa: Estimate;
  /** Pressure at the end of the hold, Pa. */
  readonly endPa: Estimate;
  /** The fitted curve, Pa, at any time since isolation. */
  readonly pressureAt: (heldS: number) => number;
  /** The rate of all that levels off, Pa/s, at any time since isolation. */
  readonly levellingRateAt: (heldS: number) => number;
}

/** The grid of τ begins here; quicker ones look like the valve being turned. */
const QUICKEST_S = 8;
/** Its steps; at ×2 a single exponential between two of the grid passes for a mixture with a leak. */
const GRID_STEP = 1.25;
/**
 * The slowest τ, in lengths of the hold (or of the wait, once that is longer): what takes longer
 * to level off shows no bend within the hold, and counts as a leak unless shown otherwise.
 */
const SLOWEST_HOLDS = 2;
/** Fewer points than this fit anything. */
const LEAST_POINTS = 8;
/** Residuals farther out than this are spikes that the first look let through. */
const OUTLIER_SIGMAS = 4;

/**
 * The variance is taken this much larger than the residuals say: a τ between two of the grid leaves
 * a misfit that is no noise. Set so that nine of ten intervals hold on invented curves; see the tests.
 */
const ALLOWANCE = 2;

/** One shape of the model; `at` its value, `rateAt` its slope, over the time since isolation. */
interface Shape {
  readonly at: (heldS: number) => number;
  readonly rateAt: (heldS: number) => number;
}

/** Places in the list of coefficients. */
const END = 0;
const LEAK = 1;

/** @returns null where there are too few points to fit */
export function fitRise(points: readonly RisePoint[], holdS: number): RiseFit | null {
  const lastS = points.at(-1)?.heldS ?? 0;
  if (points.length < LEAST_POINTS || lastS <= 0) return null;
  const shapes = shapesFor(Math.max(lastS, holdS));
  const free = [true, ...shapes.map(() => false)];
  const design = designOf(points, shapes, holdS);
  const values = points.map(({ pressurePa }) => pressurePa);
  const weights = points.map(({ variancePa2 }) => 1 / variancePa2);
  const first = solveNonnegative(normalEquations(design, values, weights), free);
  const kept = withoutOutliers(weights, residualsOf(design, values, first.coefficients));
  const equations = normalEquations(design, values, kept);
  const best = solveNonnegative(equations, free, first.coefficients);
  const inUse = best.coefficients.filter((value) => value !== 0).length;
  const degreesOfFreedom = Math.max(kept.filter((weight) => weight > 0).length - inUse, 1);
  const residuals = residualsOf(design, values, best.coefficients);
  const scale = misfitScale(kept, residuals, degreesOfFreedom);

  const profile = { equations, free, best, scale, degreesOfFreedom };
  const leak = profileEstimate({ ...profile, index: LEAK });
  const end = profileEstimate({ ...profile, index: END });
  const middle = conditional(equations, free, leak.estimate);
  const pressureAt = (heldS: number) => valueAt(shapes, middle, holdS, heldS);
  const levelling = [leak.high, leak.estimate, leak.low].map((leakPaPerS) =>
    levellingPa(shapes, conditional(equations, free, leakPaPerS), holdS),
  );
  return {
    startPa: pressureAt(0),
    leakPaPerS: leak,
    moisturePa: {
      estimate: levelling[1] ?? 0,
      low: Math.min(...levelling),
      high: Math.max(...levelling),
    },
    endPa: end,
    pressureAt,
    levellingRateAt: (heldS) =>
      shapes.reduce(
        (sum, shape, i) => (i === 0 ? 0 : sum + (middle[i + 1] ?? 0) * shape.rateAt(heldS)),
        0,
      ),
  };
}

/** What levels off, from isolation to the end of the hold, Pa. */
function levellingPa(
  shapes: readonly Shape[],
  coefficients: readonly number[],
  holdS: number,
): number {
  return shapes.reduce((sum, shape, i) => {
    return i === 0 ? 0 : sum + (coefficients[i + 1] ?? 0) * (shape.at(holdS) - shape.at(0));
  }, 0);
}

/** The leak's shape first, then all that levels off. */
function shapesFor(lengthS: number): Shape[] {
  const shapes: Shape[] = [{ at: (t) => t, rateAt: () => 1 }];
  for (let tauS = QUICKEST_S; tauS <= SLOWEST_HOLDS * lengthS; tauS *= GRID_STEP) {
    const tau = tauS;
    shapes.push({
      at: (t) => -Math.exp(-t / tau),
      rateAt: (t) => Math.exp(-t / tau) / tau,
    });
  }
  shapes.push({
    at: (t) => Math.sqrt(Math.max(t, 0)),
    rateAt: (t) => 0.5 / Math.sqrt(Math.max(t, 1)),
  });
  return shapes;
}

/**
 * The columns of the linear problem. Every shape counts from its value at the end of the hold: the
 * constant is then the pressure there.
 */
function designOf(
  points: readonly RisePoint[],
  shapes: readonly Shape[],
  holdS: number,
): number[][] {
  return [
    points.map(() => 1),
    ...shapes.map((shape) => {
      const atEnd = shape.at(holdS);
      return points.map(({ heldS }) => shape.at(heldS) - atEnd);
    }),
  ];
}

function valueAt(
  shapes: readonly Shape[],
  coefficients: readonly number[],
  holdS: number,
  heldS: number,
): number {
  return shapes.reduce(
    (sum, shape, i) => sum + (coefficients[i + 1] ?? 0) * (shape.at(heldS) - shape.at(holdS)),
    coefficients[END] ?? 0,
  );
}

/** The coefficients that fit best where the leak is held at `leakPaPerS`. */
function conditional(
  equations: NormalEquations,
  free: readonly boolean[],
  leakPaPerS: number,
): readonly number[] {
  const { coefficients } = solveNonnegative(
    holding(equations, LEAK)(leakPaPerS),
    free.filter((_, i) => i !== LEAK),
  );
  return [...coefficients.slice(0, LEAK), leakPaPerS, ...coefficients.slice(LEAK)];
}

/** Measured less fitted, Pa. */
function residualsOf(
  design: readonly (readonly number[])[],
  values: readonly number[],
  coefficients: readonly number[],
): number[] {
  const rest = [...values];
  for (const [i, column] of design.entries()) {
    const coefficient = coefficients[i] ?? 0;
    if (coefficient === 0) continue;
    for (const [row, value] of column.entries()) rest[row] = (rest[row] ?? 0) - coefficient * value;
  }
  return rest;
}

/** The weights, with none for points that lie too far out. */
function withoutOutliers(weights: readonly number[], residuals: readonly number[]): number[] {
  const sizes = residuals.map((residual, i) => Math.abs(residual) * Math.sqrt(weights[i] ?? 0));
  const sigma = Math.max(SIGMA_PER_MAD * median(sizes), 1);
  return weights.map((weight, i) => ((sizes[i] ?? 0) <= OUTLIER_SIGMAS * sigma ? weight : 0));
}

/**
 * By how much the variances are too small: the residuals' own size, times what correlation between
 * neighbours costs, (1 + ρ)/(1 − ρ) for a first-order process, times the allowance.
 */
function misfitScale(
  weights: readonly number[],
  residuals: readonly number[],
  degreesOfFreedom: number,
): number {
  const standard = residuals
    .map((residual, i) => residual * Math.sqrt(weights[i] ?? 0))
    .filter((_, i) => (weights[i] ?? 0) > 0);
  const square = standard.reduce((sum, r) => sum + r * r, 0);
  const product = standard.slice(1).reduce((sum, r, i) => sum + r * (standard[i] ?? 0), 0);
  const correlation = square > 0 ? Math.min(Math.max(product / square, 0), 0.9) : 0;
  const perDegree = Math.max(square / degreesOfFreedom, 1);
  return ALLOWANCE * perDegree * ((1 + correlation) / (1 - correlation));
}
