/**
 * How a sensor scatters about a smooth curve, from the readings of the hold themselves: how much, how
 * that grows with the pressure, how long it stays on one side, and how coarse the steps are.
 */
import { median } from './median.ts';
import { SIGMA_PER_MAD, type Sample } from './samples.ts';

export interface Noise {
  /** Variance of a single reading's mean over one sample, Pa², at a pressure. */
  readonly varianceAt: (pressurePa: number) => number;
  /** How much of it is gone by the next sample; the rest fades with `correlationS`. */
  readonly whiteShare: number;
  readonly correlationS: number;
  /** The steps of the display at a moment, data time. */
  readonly stepsAt: (elapsedS: number) => Steps;
}

/** Steps of a display or converter. */
interface Steps {
  /** They hold so long, data time, s. */
  readonly untilS: number;
  /** Pa; 0 where none shows. */
  readonly stepPa: number;
  /** How long the reading stays within one, s. */
  readonly dwellS: number;
}

/** Distances, in samples, at which the scatter is looked at. */
const LAGS = [1, 2, 4, 8, 16] as const;
/** Correlation times that are tried, s: lags of sensors of the trade, from none to ten seconds. */
const CORRELATIONS_S = [1, 2, 4, 8, 16] as const;
/** No sensor of the trade is better than this: one part in five thousand. From memory. */
const LEAST_RELATIVE_SIGMA = 2e-4;
/** A tenth of a micron, below every display. */
const LEAST_SIGMA_PA = 0.01;
/** A difference is taken of readings at even distances, within this part of them. */
const UNEVEN = 0.3;
/** The quick beginning is left out where enough remains, s and samples. */
const BEGINNING_S = 40;
const ENOUGH = 60;
/** Fewer differences than this say nothing about a distance. */
const LEAST_DIFFERENCES = 10;
/** Readings that repeat so often sit on the steps of a display. */
const STICKING_SHARE = 0.2;
/** The step of a reading that never moved, as a share of it: ten micron of 500. A setting of ours. */
const UNSEEN_STEP_SHARE = 0.02;

interface Difference {
  readonly pressurePa: number;
  readonly sizePa: number;
}

function settledOf(samples: readonly Sample[]): readonly Sample[] {
  const firstS = samples[0]?.elapsedS ?? 0;
  const settled = samples.filter(({ elapsedS }) => elapsedS > firstS + BEGINNING_S);
  return settled.length >= ENOUGH ? settled : samples;
}

/** @param samples of the hold after its first moments, in order of time */
export function noiseOf(samples: readonly Sample[]): Noise {
  const intervalS = usualIntervalS(samples);
  const settled = settledOf(samples);
  const near = fourthDifferences(settled, 1, intervalS);
  const { constantPa2, relative2 } = growth(near);
  const shape = (pressurePa: number) =>
    Math.max(constantPa2 + relative2 * pressurePa ** 2, LEAST_SIGMA_PA ** 2);
  // Scatter at each distance over that at the nearest, as shares that no longer depend on pressure.
  const shares = LAGS.map((lag) => {
    const differences = lag === 1 ? near : fourthDifferences(settled, lag, intervalS);
    return { lag, count: differences.length, share: spreadOf(differences, shape) };
  }).filter(({ count }) => count >= LEAST_DIFFERENCES);
  const { white, slow, correlationS } = correlation(shares, intervalS);
  const total = Math.max(white + slow, 1e-9);
  const steps = stepsOf(samples);
  return {
    varianceAt: (pressurePa) =>
      total * shape(pressurePa) + (LEAST_RELATIVE_SIGMA * pressurePa) ** 2,
    whiteShare: white / total,
    correlationS,
    stepsAt: (elapsedS) =>
      steps.find(({ untilS }) => elapsedS <= untilS) ?? { untilS: Infinity, stepPa: 0, dwellS: 0 },
  };
}

/**
 * Fourth differences, 1 −4 6 −4 1, over their length √70: a smooth curve leaves next to none, also of
 * readings many seconds apart, where a second difference would take its bend for noise.
 */
function fourthDifferences(samples: readonly Sample[], lag: number, usualS: number): Difference[] {
  const found: Difference[] = [];
  const stepS = lag * usualS;
  const stride = Math.max(1, lag >> 1);
  for (let i = 2 * lag; i + 2 * lag < samples.length; i += stride) {
    const a = samples[i - 2 * lag];
    const b = samples[i - lag];
    const c = samples[i];
    const d = samples[i + lag];
    const e = samples[i + 2 * lag];
    if (!a || !b || !c || !d || !e) continue;
    const even = Math.max(
      Math.abs(b.elapsedS - a.elapsedS - stepS),
      Math.abs(c.elapsedS - b.elapsedS - stepS),
      Math.abs(d.elapsedS - c.elapsedS - stepS),
      Math.abs(e.elapsedS - d.elapsedS - stepS),
    );
    if (even > UNEVEN * stepS) continue;
    const difference =
      a.pressurePa - 4 * b.pressurePa + 6 * c.pressurePa - 4 * d.pressurePa + e.pressurePa;
    found.push({ pressurePa: c.pressurePa, sizePa: Math.abs(difference) / Math.sqrt(70) });
  }
  return found;
}

/** Variance a² + (r·P)²: the lower and the upper half of the pressures tell the two apart. */
function growth(differences: readonly Difference[]): { constantPa2: number; relative2: number } {
  const sorted = [...differences].sort((a, b) => a.pressurePa - b.pressurePa);
  const middle = sorted.length >> 1;
  const lower = halfOf(sorted.slice(0, middle));
  const upper = halfOf(sorted.slice(middle));
  const upperPa2 = upper.pressurePa ** 2;
  const spread = upperPa2 - lower.pressurePa ** 2;
  const steepness = (upper.variance - lower.variance) / Math.max(spread, 1e-12);
  const relative2 =
    spread > 0.1 * upperPa2
      ? Math.min(Math.max(steepness, 0), upper.variance / Math.max(upperPa2, 1e-12))
      : 0;
  return { constantPa2: Math.max(upper.variance - relative2 * upperPa2, 0), relative2 };
}

function halfOf(differences: readonly Difference[]): { pressurePa: number; variance: number } {
  const sizes = differences.map(({ sizePa }) => sizePa);
  return {
    pressurePa: median(differences.map(({ pressurePa }) => pressurePa)),
    variance: robustVariance(sizes),
  };
}

/**
 * From the median, which a third of spikes leaves alone; where steps make most differences equal it
 * falls to nothing, and the mean square without the largest twentieth stands in.
 */
function robustVariance(sizes: readonly number[]): number {
  if (sizes.length === 0) return 0;
  const sorted = Float64Array.from(sizes).sort();
  const kept = Math.max(1, Math.floor(sorted.length * 0.95));
  let sum = 0;
  for (let i = 0; i < kept; i += 1) sum += (sorted[i] ?? 0) ** 2;
  // Of a normal distribution, the mean square of the inner 95 % is 0.759 of the variance.
  const trimmed = sum / kept / 0.759;
  const byMedian = (SIGMA_PER_MAD * median(sizes)) ** 2;
  return Math.max(byMedian, Math.min(trimmed, 4 * byMedian + trimmed / 4));
}

function spreadOf(
  differences: readonly Difference[],
  shape: (pressurePa: number) => number,
): number {
  return robustVariance(
    differences.map(({ pressurePa, sizePa }) => sizePa / Math.sqrt(shape(pressurePa))),
  );
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
  for (const correlationS of CORRELATIONS_S) {
    if (correlationS < intervalS / 2 && correlationS !== CORRELATIONS_S[0]) continue;
    const seen = (lag: number) => {
      const left = Math.exp((-lag * intervalS) / correlationS);
      return 1 - (left * (112 - left * (56 - left * (16 - 2 * left)))) / 70;
    };
    for (let part = 0; part <= 8; part += 1) {
      const whiteShare = part / 8;
      const shapes = shares.map(({ lag }) => whiteShare + (1 - whiteShare) * seen(lag));
      // Relative errors of variances: the weight of each is how many independent ones there are.
      const weights = shares.map(({ lag, count }) => count / (lag === 1 ? 4 : 8));
      const size = Math.exp(
        weightedMean(
          shares.map(({ share }, i) => Math.log(Math.max(share, 1e-9) / (shapes[i] ?? 1))),
          weights,
        ),
      );
      const misfit = shares.reduce(
        (sum, { share }, i) =>
          sum +
          (weights[i] ?? 0) * Math.log(Math.max(share, 1e-9) / (size * (shapes[i] ?? 1))) ** 2,
        0,
      );
      if (misfit < best.misfit - 1e-9) {
        best = { white: size * whiteShare, slow: size * (1 - whiteShare), correlationS, misfit };
      }
    }
  }
  return best;
}

function weightedMean(values: readonly number[], weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const sum = values.reduce((all, value, i) => all + value * (weights[i] ?? 0), 0);
  return total > 0 ? sum / total : 0;
}

function usualIntervalS(samples: readonly Sample[]): number {
  const intervals: number[] = [];
  for (let i = 1; i < samples.length; i += 1) {
    intervals.push((samples[i]?.elapsedS ?? 0) - (samples[i - 1]?.elapsedS ?? 0));
  }
  return Math.max(median(intervals), 0.1);
}

/** How many samples tell together how coarse the display is: it may be coarser further up. */
const BLOCK = 40;

/** The steps of a display on which the readings sit for longer than from one to the next. */
function stepsOf(samples: readonly Sample[]): Steps[] {
  const found: Steps[] = [];
  for (let from = 0; from < samples.length; from += BLOCK) {
    const short = samples.length - from < 2 * BLOCK;
    const block = samples.slice(from, short ? samples.length : from + BLOCK);
    found.push({ untilS: short ? Infinity : (block.at(-1)?.elapsedS ?? 0), ...stepOf(block) });
    if (short) break;
  }
  return found;
}

function stepOf(samples: readonly Sample[]): { stepPa: number; dwellS: number } {
  const levels: number[] = [];
  let same = 0;
  let changes = 1;
  for (let i = 1; i < samples.length; i += 1) {
    const [before, here] = [samples[i - 1]?.pressurePa ?? 0, samples[i]?.pressurePa ?? 0];
    if (Math.abs(here - before) < 1e-4) {
      same += 1;
      levels.push(here);
    } else changes += 1;
  }
  if (same < STICKING_SHARE * samples.length) return { stepPa: 0, dwellS: 0 };
  levels.sort((a, b) => a - b);
  let stepPa = Infinity;
  for (let i = 1; i < levels.length; i += 1) {
    const betweenPa = (levels[i] ?? 0) - (levels[i - 1] ?? 0);
    if (betweenPa > 2e-3) stepPa = Math.min(stepPa, betweenPa);
  }
  const lengthS = (samples.at(-1)?.elapsedS ?? 0) - (samples[0]?.elapsedS ?? 0);
  // A reading that never moves: its step is not known; common displays have one of a micron or ten.
  if (!Number.isFinite(stepPa)) stepPa = UNSEEN_STEP_SHARE * (levels[0] ?? 0);
  return { stepPa, dwellS: lengthS / changes };
}
