/**
 * The rise of a valved-off system taken apart: steady inflow, what levels off, what sinks at first.
 *
 * P(t) = P₀ + L·t + Σ Mᵢ·(1 − e^(−t/τᵢ)) − …, with L, Mᵢ ≥ 0. Which τ it was, a hold of minutes can't
 * tell; so nothing is read off the best fit: every mixture of time constants counts by how likely it
 * makes the readings, and the intervals are those of all of them together.
 */
import type { Estimate } from './conclusions.ts';
import { solveNonnegative } from './nonnegative-least-squares.ts';
import { riseDesign, type Design } from './rise-design.ts';
import type { KindLimits } from './rise-kinds.ts';
import { noiseOf } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';
import { risePosterior, type LogLikelihood, type Posterior } from './rise-posterior.ts';
import { riseShapes, shapeAt, shapeRate } from './rise-shapes.ts';
import type { Warming } from './rise-warming.ts';
import type { Sample } from './samples.ts';

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
/** What wanders over minutes, as shares of the pressure, and how often. Settings of ours. */
const WANDERS = [
  { share: 5e-4, prior: 0.2 },
  { share: 2e-3, prior: 0.4 },
  { share: 6e-3, prior: 0.3 },
  { share: 18e-3, prior: 0.1 },
] as const;
/** What sinks is reckoned with where it makes the best fit better by this much in χ². */
const SINKING_GAIN = 6;

export function fitRise(
  points: readonly RisePoint[],
  samples: readonly Sample[],
  warming: Warming,
  limits: KindLimits,
  other: LogLikelihood | null = null,
): RiseFit | null {
  const lastS = points.at(-1)?.heldS ?? 0;
  if (points.length < LEAST_POINTS || lastS <= 0) return null;
  const noise = noiseOf(samples);
  const shapes = riseShapes(lastS);
  const options = { lengthS: lastS, holdS: limits.holdS, allowedRisePa: limits.allowedRisePa, warming };
  const best = WANDERS.map(({ share, prior }) => {
    const design = riseDesign(points, noise, shapes, { ...options, wanderShare: share, scale: 1 });
    const fits = bestFits(design);
    const logLikelihood = Math.log(prior) - 0.5 * (fits.withSinks + design.logDeterminant);
    return { share, design, fits, logLikelihood };
  }).reduce((one, next) => (next.logLikelihood > one.logLikelihood ? next : one));
  let { design } = best;
  const { withSinks, without, inUse } = best.fits;
  const scale = Math.max(withSinks / Math.max(points.length - 1 - inUse, 4), 1);
  if (scale > 1.5) {
    design = riseDesign(points, noise, shapes, { ...options, wanderShare: best.share, scale });
  }
  const sinking = (without - withSinks) / scale > SINKING_GAIN;
  const posterior = risePosterior(design, sinking, limits, other);
  const { coefficients, startPa } = posterior;
  return {
    startPa,
    leakPaPerS: posterior.leakPaPerS,
    moisturePa: posterior.levelledPa,
    endPa: posterior.endPa,
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
          shape.kind === 'release'
            ? sum + (coefficients[i] ?? 0) * shapeRate(shape, heldS, lastS)
            : sum,
        0,
      ),
  };
}

/** χ² of the best fit of all, with and without what sinks. */
function bestFits(design: Design): { withSinks: number; without: number; inUse: number } {
  const { size, gram, moments, total, sinks } = design;
  const rows = Array.from({ length: size }, (_, i) =>
    Array.from(gram.subarray(i * size, (i + 1) * size)),
  );
  const free = new Array<boolean>(size).fill(false);
  const all = solveNonnegative({ gram: rows, moments: Array.from(moments), total }, free);
  const kept = size - sinks.length;
  const some = solveNonnegative(
    {
      gram: rows.slice(0, kept).map((row) => row.slice(0, kept)),
      moments: Array.from(moments.subarray(0, kept)),
      total,
    },
    free.slice(0, kept),
  );
  return {
    withSinks: all.residual,
    without: some.residual,
    inUse: all.coefficients.filter((value) => value > 0).length,
  };
}
