/** How fast a pressure falls towards a floor: P = F + A·e^(−k·t), with F ≥ 0. */
import type { Estimate } from '../conclusions.ts';
import {
  fitSeparable,
  leastResidualAt,
  type SeparableFit,
  type SeparableProblem,
} from '../fitting/separable-least-squares.ts';
import type { Sample } from '../readings/samples.ts';

/** Fewer samples than this, or a shorter stretch, show no exponential. */
const LEAST_SAMPLES = 8;
/** Gauges of the trade scatter by about one per cent and a tenth of a pascal. From memory. */
const RELATIVE_SIGMA = 0.01;
const SIGMA_PA = 0.1;
/** Starts that are compared, as falls over the whole stretch: from a fifth to thirty time constants. */
const STARTS = [0.2, 0.5, 1, 2, 4, 8, 15, 30];
/** 95 % point of the normal distribution. */
const Z95 = 1.6449;

/**
 * k in 1/s, with a 90 % interval from the residuals' own size; null where the samples show none.
 * @param samples in order of time
 */
export function fallRatePerS(samples: readonly Sample[]): Estimate | null {
  const firstS = samples[0]?.elapsedS ?? 0;
  const lengthS = (samples.at(-1)?.elapsedS ?? 0) - firstS;
  if (samples.length < LEAST_SAMPLES || lengthS <= 0) return null;
  const free = fitFrom(problemOf(samples, firstS, true), lengthS);
  const fit =
    free !== null && (free.linear[1] ?? 0) < 0
      ? fitFrom(problemOf(samples, firstS, false), lengthS)
      : free;
  const [logRate] = fit?.nonlinear ?? [];
  const [deviation] = fit?.nonlinearDeviations ?? [];
  // Without a fall the fitted curve is none: its size is negative or its rate anything.
  if (fit === null || logRate === undefined || deviation === undefined) return null;
  if (!((fit.linear[0] ?? 0) > 0)) return null;
  const [rate, factor] = [Math.exp(logRate), Math.exp(Z95 * deviation)];
  const high = rate * factor;
  return Number.isFinite(high) && rate > 0 ? { estimate: rate, low: rate / factor, high } : null;
}

/** The exponential first, then the floor; both over each sample's own deviation. */
function problemOf(samples: readonly Sample[], firstS: number, floor: boolean): SeparableProblem {
  const weights = samples.map(({ pressurePa }) => 1 / (RELATIVE_SIGMA * pressurePa + SIGMA_PA));
  return {
    values: samples.map(({ pressurePa }, i) => pressurePa * (weights[i] ?? 0)),
    shapeCount: floor ? 2 : 1,
    shapes: ([logRate = 0], [fall = new Float64Array(), level = new Float64Array()]) => {
      const rate = Math.exp(logRate);
      for (const [row, { elapsedS }] of samples.entries()) {
        const weight = weights[row] ?? 0;
        fall[row] = weight * Math.exp(-rate * (elapsedS - firstS));
        level[row] = weight;
      }
    },
  };
}

function fitFrom(problem: SeparableProblem, lengthS: number): SeparableFit | null {
  const starts = STARTS.map((falls) => {
    const start = Math.log(falls / lengthS);
    return { start, residual: leastResidualAt(problem, [start]) };
  });
  const best = starts.reduce((least, one) => (one.residual < least.residual ? one : least));
  const fit = fitSeparable(problem, [best.start]);
  return fit.ok && fit.converged ? fit : null;
}
