/**
 * How a sensor scatters about a smooth curve, from the readings of the hold themselves: how much, how
 * that grows with the pressure, how long it stays on one side, and how coarse the steps are.
 */
import { median } from '../fitting/median.ts';
import { displaySteps, type Steps } from '../readings/display-steps.ts';
import { fourthDifferences, growth, spreadOf } from '../readings/fourth-differences.ts';
import type { Sample } from '../readings/samples.ts';
import { seriesOf, type Series } from '../readings/series.ts';

export interface Noise {
  /** Variance of a single reading's mean over one sample, Pa², at a pressure. */
  readonly varianceAt: (pressurePa: number) => number;
  /** How much of it is gone by the next sample; the rest fades with `correlationS`. */
  readonly whiteShare: number;
  readonly correlationS: number;
  /** The steps of the display at a moment, data time. */
  readonly stepsAt: (elapsedS: number) => Steps;
}

/** Distances, in samples, at which the scatter is looked at. */
const LAGS = [1, 2, 4, 8, 16] as const;
/** Correlation times that are tried, s: lags of sensors of the trade, from none to ten seconds. */
const CORRELATIONS_S = [1, 2, 4, 8, 16] as const;
/** No sensor of the trade is better than this: one part in five thousand. From memory. */
const LEAST_RELATIVE_SIGMA = 2e-4;
/** A tenth of a micron, below every display. */
const LEAST_SIGMA_PA = 0.01;
/** The quick beginning is left out where enough remains, s and samples. */
const BEGINNING_S = 40;
const ENOUGH = 60;
/** Fewer differences than this say nothing about a distance. */
const LEAST_DIFFERENCES = 10;
function settledOf({ elapsedS, pressurePa }: Series): Series {
  const firstS = elapsedS[0] ?? 0;
  let from = 0;
  while (from < elapsedS.length && (elapsedS[from] ?? 0) <= firstS + BEGINNING_S) from += 1;
  if (elapsedS.length - from < ENOUGH) return { elapsedS, pressurePa };
  return { elapsedS: elapsedS.subarray(from), pressurePa: pressurePa.subarray(from) };
}

/** @param samples of the hold after its first moments, in order of time */
export function noiseOf(samples: readonly Sample[]): Noise {
  const series = seriesOf(samples);
  const intervalS = usualIntervalS(series.elapsedS);
  const settled = settledOf(series);
  const near = fourthDifferences(settled, 1, intervalS);
  const { constantPa2, relative2 } = growth(near);
  const shape = (pressurePa: number) =>
    Math.max(constantPa2 + relative2 * pressurePa ** 2, LEAST_SIGMA_PA ** 2);
  // Scatter at each distance over that at the nearest, as shares that no longer depend on pressure.
  const shares = LAGS.map((lag) => {
    const differences = lag === 1 ? near : fourthDifferences(settled, lag, intervalS);
    return { lag, count: differences.sizePa.length, share: spreadOf(differences, shape) };
  }).filter(({ count }) => count >= LEAST_DIFFERENCES);
  const { white, slow, correlationS } = correlation(shares, intervalS);
  const total = Math.max(white + slow, 1e-9);
  const steps = displaySteps(series);
  return {
    varianceAt: (pressurePa) =>
      total * shape(pressurePa) + (LEAST_RELATIVE_SIGMA * pressurePa) ** 2,
    whiteShare: white / total,
    correlationS,
    stepsAt: (elapsedS) =>
      steps.find(({ untilS }) => elapsedS <= untilS) ?? { untilS: Infinity, stepPa: 0, dwellS: 0 },
  };
}

interface Share {
  readonly lag: number;
  readonly count: number;
  readonly share: number;
}

/**
 * A white and a fading part of the scatter. The fourth difference at distance h of what fades with τ has
 * 1 − (2·56·r − 2·28·r² + 2·8·r³ − 2·r⁴)/70 of its variance, r = e^(−h/τ): products of 1 −4 6 −4 1 with
 * itself shifted.
 */
function correlation(
  shares: readonly Share[],
  intervalS: number,
): { white: number; slow: number; correlationS: number } {
  const first = shares[0]?.share ?? 1;
  let best = { white: first, slow: 0, correlationS: 1, misfit: Infinity };
  // Relative errors of variances: the weight of each is how many independent ones there are.
  const weights = Float64Array.from(shares, ({ lag, count }) => count / (lag === 1 ? 4 : 8));
  const found = Float64Array.from(shares, ({ share }) => Math.max(share, 1e-9));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const shapes = new Float64Array(shares.length);
  for (const correlationS of CORRELATIONS_S) {
    if (correlationS < intervalS / 2 && correlationS !== CORRELATIONS_S[0]) continue;
    const left = Float64Array.from(shares, ({ lag }) => {
      const kept = Math.exp((-lag * intervalS) / correlationS);
      return 1 - (kept * (112 - kept * (56 - kept * (16 - 2 * kept)))) / 70;
    });
    for (let part = 0; part <= 8; part += 1) {
      const whiteShare = part / 8;
      let logSize = 0;
      for (let i = 0; i < shapes.length; i += 1) {
        const shape = whiteShare + (1 - whiteShare) * (left[i] ?? 0);
        shapes[i] = shape;
        logSize += Math.log((found[i] ?? 0) / shape) * (weights[i] ?? 0);
      }
      const size = Math.exp(total > 0 ? logSize / total : 0);
      let misfit = 0;
      for (let i = 0; i < shapes.length; i += 1) {
        const off = Math.log((found[i] ?? 0) / (size * (shapes[i] ?? 1)));
        misfit += (weights[i] ?? 0) * off ** 2;
      }
      if (misfit < best.misfit - 1e-9) {
        best = { white: size * whiteShare, slow: size * (1 - whiteShare), correlationS, misfit };
      }
    }
  }
  return best;
}

function usualIntervalS(elapsedS: Float64Array): number {
  const intervals = new Float64Array(Math.max(elapsedS.length - 1, 0));
  for (let i = 0; i < intervals.length; i += 1) {
    intervals[i] = (elapsedS[i + 1] ?? 0) - (elapsedS[i] ?? 0);
  }
  return Math.max(median(intervals), 0.1);
}
