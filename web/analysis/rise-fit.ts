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
import { profileEstimate } from './profile-estimate.ts';
import type { RisePoint } from './rise-points.ts';

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
  const first = equationsOf(points, shapes, holdS);
  const kept = withoutOutliers(points, shapes, holdS, solveNonnegative(first, free).coefficients);
  const equations = kept.length === points.length ? first : equationsOf(kept, shapes, holdS);
  const best = solveNonnegative(equations, free);
  const scale = misfitScale(kept, shapes, holdS, best.coefficients);

  const profile = {
    equations,
    free,
    best,
    scale,
    degreesOfFreedom: degrees(kept, best.coefficients),
  };
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

/** Every shape counted from its value at the end of the hold: the constant is then that pressure. */
function equationsOf(
  points: readonly RisePoint[],
  shapes: readonly Shape[],
  holdS: number,
): NormalEquations {
  return normalEquations(
    [
      points.map(() => 1),
      ...shapes.map((shape) => points.map(({ heldS }) => shape.at(heldS) - shape.at(holdS))),
    ],
    points.map(({ pressurePa }) => pressurePa),
    points.map(({ variancePa2 }) => 1 / variancePa2),
  );
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

function withoutOutliers(
  points: readonly RisePoint[],
  shapes: readonly Shape[],
  holdS: number,
  coefficients: readonly number[],
): readonly RisePoint[] {
  const residuals = standardResiduals(points, shapes, holdS, coefficients);
  const sizes = residuals.map(Math.abs).sort((a, b) => a - b);
  // 0.6745 standard deviations lie below the median of a normal distribution's absolute values.
  const sigma = Math.max((sizes[sizes.length >> 1] ?? 0) / 0.6745, 1);
  return points.filter((_, i) => Math.abs(residuals[i] ?? 0) <= OUTLIER_SIGMAS * sigma);
}

/**
 * By how much the variances are too small: the residuals' own size, times what correlation between
 * neighbours costs, (1 + ρ)/(1 − ρ) for a first-order process. Never below 1.
 */
function misfitScale(
  points: readonly RisePoint[],
  shapes: readonly Shape[],
  holdS: number,
  coefficients: readonly number[],
): number {
  const residuals = standardResiduals(points, shapes, holdS, coefficients);
  const square = residuals.reduce((sum, r) => sum + r * r, 0);
  const product = residuals.slice(1).reduce((sum, r, i) => sum + r * (residuals[i] ?? 0), 0);
  const correlation = square > 0 ? Math.min(Math.max(product / square, 0), 0.9) : 0;
  const perDegree = square / degrees(points, coefficients);
  return ALLOWANCE * Math.max(perDegree, 1) * ((1 + correlation) / (1 - correlation));
}

function degrees(points: readonly RisePoint[], coefficients: readonly number[]): number {
  return Math.max(points.length - coefficients.filter((value) => value !== 0).length, 1);
}

function standardResiduals(
  points: readonly RisePoint[],
  shapes: readonly Shape[],
  holdS: number,
  coefficients: readonly number[],
): number[] {
  return points.map(
    ({ heldS, pressurePa, variancePa2 }) =>
      (pressurePa - valueAt(shapes, coefficients, holdS, heldS)) / Math.sqrt(variancePa2),
  );
}
