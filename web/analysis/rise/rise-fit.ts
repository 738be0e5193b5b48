/**
 * The rise of a valved-off system taken apart: steady inflow, what levels off, what evens out at first.
 *
 * P(t) = P₀ + L·t + Σ Mᵢ·(1 − e^(−t/τᵢ)) + Σ Eₖ·e^(−t/θₖ), with L, Mᵢ ≥ 0. Which τ it was, a hold of minutes can't
 * tell; so nothing is read off the best fit: every mixture of time constants counts by how likely it
 * makes the readings, and the intervals are those of all of them together.
 */
import type { Estimate } from '../conclusions.ts';
import { solveNonnegative } from '../fitting/nonnegative-least-squares.ts';
import { endOfHold } from './end-of-hold.ts';
import { problemOf, riseDesign, whitened, type Design } from './rise-design.ts';
import { freedOfGrid } from './rise-grid-error.ts';
import type { KindLimits } from './rise-kinds.ts';
import type { Noise } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';
import { risePosterior, type AmongHolds, type Posterior } from './rise-posterior.ts';
import { riseShapes, shapeAt, shapeRate } from './rise-shapes.ts';
import type { Warming } from './rise-warming.ts';

export interface RiseFit {
  /** Pressure at isolation, Pa. */
  readonly startPa: number;
  /** Steady inflow L, Pa/s. */
  readonly leakPaPerS: Estimate;
  /** What levels off, as it will stand at the end of the hold, Pa. */
  readonly moisturePa: Estimate;
  /** Pressure at the end of the hold, Pa. */
  readonly endPa: Estimate;
  readonly posterior: Posterior;
  /** Standard deviation of a sample about the curve, Pa. */
  readonly noisePa: number;
  /** The fitted curve, Pa, at any time since isolation. */
  readonly pressureAt: (heldS: number) => number;
  /** The rate of all that levels off, Pa/s, at any time since isolation. */
  readonly levellingRateAt: (heldS: number) => number;
}

/** Fewer points than this fit anything. */
const LEAST_POINTS = 8;
/** The noise's own estimate counts as much as so many readings about the fit. */
const PRIOR_DEGREES = 10;
/** What wanders over minutes, as shares of the pressure, and how often. Settings of ours. */
const WANDERS = [
  { share: 1e-3, prior: 0.5 },
  { share: 4e-3, prior: 0.35 },
  { share: 16e-3, prior: 0.15 },
] as const;
/** What evens out at first, as shares of the pressure, and how often. Settings of ours. */
const EQUALISATIONS = [
  { share: 5e-3, prior: 0.4 },
  { share: 4e-2, prior: 0.4 },
  { share: 0.3, prior: 0.2 },
] as const;

/** What else has moved the readings. */
interface Disturbed {
  readonly warming: Warming;
  /** Steps, since isolation, s. */
  readonly stepsS: readonly number[];
}

export function fitRise(
  points: readonly RisePoint[],
  noise: Noise,
  { warming, stepsS }: Disturbed,
  limits: KindLimits,
  amongHolds: AmongHolds,
): RiseFit | null {
  const lastS = points.at(-1)?.heldS ?? 0;
  if (points.length < LEAST_POINTS || lastS <= 0) return null;
  const shapes = riseShapes(lastS);
  const problem = problemOf(points, noise, shapes, {
    lengthS: lastS,
    holdS: limits.holdS,
    allowedRisePa: limits.allowedRisePa,
    warming,
    stepsS,
  });
  const firstPa = points[0]?.pressurePa ?? 0;
  let best = {
    wanderShare: 0,
    equalisation: 0,
    chi2: 0,
    inUse: 0,
    leakPaPerS: 0,
    logLikelihood: -Infinity,
  };
  let design: Design | null = null;
  for (const wander of WANDERS) {
    const before = best.logLikelihood;
    const white = whitened(problem, { wanderShare: wander.share, scale: 1 });
    for (const equalisation of EQUALISATIONS) {
      const trial = riseDesign(white, equalisation.share * firstPa);
      const { chi2, inUse, leakPaPerS } = bestFit(trial);
      const logLikelihood =
        Math.log(wander.prior * equalisation.prior) - 0.5 * (chi2 + trial.logDeterminant);
      if (logLikelihood <= best.logLikelihood) continue;
      best = {
        wanderShare: wander.share,
        equalisation: equalisation.share,
        chi2,
        inUse,
        leakPaPerS,
        logLikelihood,
      };
      design = trial;
    }
    // One that wanders more is no better where this one is not.
    if (best.logLikelihood === before) break;
  }
  if (!design) return null;
  const scale =
    (best.chi2 + PRIOR_DEGREES) / Math.max(points.length - 1 - best.inUse + PRIOR_DEGREES, 4);
  if (scale > 1.4 || scale < 0.7) {
    const { wanderShare } = best;
    design = riseDesign(whitened(problem, { wanderShare, scale }), best.equalisation * firstPa);
  }
  const posterior = risePosterior(freedOfGrid(design), best.leakPaPerS, limits, amongHolds);
  if (posterior === null) return null;
  const { coefficients, startPa } = posterior;
  return {
    startPa,
    leakPaPerS: posterior.leakPaPerS,
    moisturePa: posterior.levelledPa,
    endPa: endOfHold(posterior.endPa, points.at(-1)?.pressurePa ?? 0),
    posterior,
    noisePa: Math.sqrt(noise.varianceAt(points.at(-1)?.pressurePa ?? 0)),
    pressureAt: (heldS) =>
      shapes.reduce(
        (sum, shape, i) => sum + (coefficients[i] ?? 0) * shapeAt(shape, heldS, lastS),
        startPa,
      ),
    levellingRateAt: (heldS) =>
      shapes.reduce(
        (sum, shape, i) =>
          i === 0 ? 0 : sum + (coefficients[i] ?? 0) * shapeRate(shape, heldS, lastS),
        0,
      ),
  };
}

/** χ² of the best fit of all, how many shapes it needs, and its inflow. */
function bestFit(design: Design) {
  const { coefficients, residual } = solveNonnegative(design, NONE_FREE);
  return {
    chi2: residual,
    inUse: coefficients.filter((value) => value > 0).length,
    leakPaPerS: coefficients[0] ?? 0,
  };
}

/** No shape may be taken away from what has risen. */
const NONE_FREE: readonly boolean[] = [];
