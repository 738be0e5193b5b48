/**
 * The rise of a valved-off system taken apart: steady inflow, what levels off, what evens out at first.
 *
 * P(t) = P₀ + L·t + Σ Mᵢ·(1 − e^(−t/τᵢ)) + Σ Eₖ·e^(−t/θₖ), with L, Mᵢ ≥ 0. Which τ it was, a hold of
 * minutes can't tell; so nothing is read off the best fit: every mixture of time constants counts by how
 * likely it makes the readings, and the intervals are those of all of them together.
 */
import { solveNonnegative } from './nonnegative-least-squares.ts';
import { covarianceOf } from './rise-covariance.ts';
import { riseDesign, whitenedHold, type Design, type Nuisances } from './rise-design.ts';
import type { Noise } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';
import { risePosterior, type LogLikelihood, type Posterior, type RuledHold } from './rise-posterior.ts';
import { LEAK, riseShapes, shapeAt, shapeRate } from './rise-shapes.ts';
import type { Warming } from './rise-warming.ts';

export interface RiseFit extends Posterior, Nuisances {
  /** The settled pressure at isolation, as if steps had come before, Pa. */
  readonly startPa: number;
  /** The fitted curve, Pa, at any time since isolation. */
  readonly pressureAt: (heldS: number) => number;
  /** The rate of all that levels off, Pa/s, at any time since isolation. */
  readonly levellingRateAt: (heldS: number) => number;
  /** What levels off with a time constant of so much or less, within a time since isolation, Pa. */
  readonly levelledBy: (heldS: number, longestTauS: number) => number;
}

/** Fewer points than this fit anything. */
const LEAST_POINTS = 8;
/** The noise's own estimate counts as much as so many readings about the fit. A setting of ours. */
const PRIOR_DEGREES = 10;
/** Below and above, the noise is scaled by what the fit leaves. */
const SCALE_IN_ORDER = [0.7, 1.4] as const;
/** What wanders over minutes, as shares of the pressure, and how often. Settings of ours. */
const WANDERS = [
  { share: 1e-3, prior: 0.35 },
  { share: 4e-3, prior: 0.5 },
  { share: 15e-3, prior: 0.15 },
] as const;
/** What evens out at first, as shares of the pressure, and how often. Settings of ours. */
const EQUALISATIONS = [
  { share: 5e-3, prior: 0.4 },
  { share: 4e-2, prior: 0.4 },
  { share: 0.3, prior: 0.2 },
] as const;

/** What else has moved the readings. */
interface Disturbed {
  readonly noise: Noise;
  readonly warming: Warming;
  /** Steps, since isolation, s. */
  readonly stepsS: readonly number[];
}

/** @returns null where there are too few points to fit */
export function fitRise(
  points: readonly RisePoint[],
  { noise, warming, stepsS }: Disturbed,
  ruled: RuledHold,
  other: LogLikelihood | null = null,
): RiseFit | null {
  const lengthS = points.at(-1)?.heldS ?? 0;
  if (points.length < LEAST_POINTS || lengthS <= 0) return null;
  const covariance = covarianceOf(points, noise);
  const shapes = riseShapes(lengthS);
  const chosen = likeliestDesign({ points, covariance, shapes, lengthS, warming, stepsS });
  if (!chosen) return null;
  const { design, leakPaPerS } = chosen;
  const posterior = risePosterior(design, leakPaPerS, ruled, other);
  const { coefficients } = posterior;
  const startPa = design.startPer.reduce(
    (sum, per, i) => sum + per * (coefficients[i] ?? 0),
    design.startPa,
  );
  const nuisances = design.nuisancesFor(coefficients);
  const sumOver = (value: (i: number) => number) =>
    shapes.reduce((sum, _, i) => sum + (coefficients[i] ?? 0) * value(i), 0);
  const of = (i: number) => shapes[i] ?? { kind: 'leak' as const, tauS: 0 };
  return {
    ...posterior,
    ...nuisances,
    startPa,
    pressureAt: (heldS) =>
      startPa +
      nuisances.equalisationAt(heldS) +
      sumOver((i) => shapeAt(of(i), heldS, lengthS)) -
      stepsS.reduce((sum, s, k) => (heldS > s ? sum : sum + (nuisances.stepsPa[k] ?? 0)), 0),
    levellingRateAt: (heldS) =>
      sumOver((i) => (i === LEAK ? 0 : shapeRate(of(i), heldS, lengthS))),
    levelledBy: (heldS, longestTauS) =>
      sumOver((i) =>
        i === LEAK || of(i).tauS > longestTauS ? 0 : shapeAt(of(i), heldS, lengthS),
      ),
  };
}

interface Chosen {
  readonly design: Design;
  readonly leakPaPerS: number;
}

/** How much wanders and evens out is what makes the readings likeliest, at the best fit. */
function likeliestDesign(hold: Design['hold']): Chosen | null {
  const firstPa = hold.points[0]?.pressurePa ?? 0;
  let best: (Chosen & { logLikelihood: number; equalisationPa: number; perDegree: number }) | null =
    null;
  for (const wander of WANDERS) {
    const whitened = whitenedHold(hold, { noiseScale: 1, wanderShare: wander.share });
    for (const equalisation of EQUALISATIONS) {
      const equalisationPa = equalisation.share * firstPa;
      const design = riseDesign(whitened, equalisationPa);
      const { chi2, inUse, leakPaPerS } = bestFit(design);
      const logLikelihood =
        Math.log(wander.prior * equalisation.prior) - 0.5 * (chi2 + design.logDeterminant);
      if (best && logLikelihood <= best.logLikelihood) continue;
      const degrees = Math.max(hold.points.length - 1 - inUse, 1);
      const perDegree = (chi2 + PRIOR_DEGREES) / (degrees + PRIOR_DEGREES);
      best = { design, leakPaPerS, logLikelihood, equalisationPa, perDegree };
    }
  }
  if (!best) return null;
  const { design, perDegree, equalisationPa } = best;
  if (perDegree > SCALE_IN_ORDER[0] && perDegree < SCALE_IN_ORDER[1]) return best;
  const sizes = { ...design.sizes, noiseScale: perDegree };
  return { ...best, design: riseDesign(whitenedHold(hold, sizes), equalisationPa) };
}

/** χ² of the best fit of all, how many shapes it needs, and its inflow. */
function bestFit({ size, gram, moments, total }: Design) {
  const rows = Array.from({ length: size }, (_, i) =>
    Array.from(gram.subarray(i * size, (i + 1) * size)),
  );
  const { coefficients, residual } = solveNonnegative(
    { gram: rows, moments: Array.from(moments), total },
    new Array<boolean>(size).fill(false),
  );
  return {
    chi2: residual,
    inUse: coefficients.filter((value) => value > 0).length,
    leakPaPerS: coefficients[LEAK] ?? 0,
  };
}
