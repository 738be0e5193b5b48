/** How readings scatter about a smooth curve, from differences that such a curve leaves next to none of. */
import { median, valueAtPlace } from '../fitting/median.ts';
import { SIGMA_PER_MAD } from './samples.ts';
import type { Series } from './series.ts';

/** A difference is taken of readings at even distances, within this part of them. */
const UNEVEN = 0.3;
/** Fourth differences: the pressure about which each was taken, and its size. */
export interface Differences {
  readonly pressurePa: Float64Array;
  readonly sizePa: Float64Array;
}

/**
 * Fourth differences, 1 −4 6 −4 1, over their length √70: a smooth curve leaves next to none, also of
 * readings many seconds apart, where a second difference would take its bend for noise.
 */
export function fourthDifferences(
  { elapsedS, pressurePa }: Series,
  lag: number,
  usualS: number,
): Differences {
  const length = elapsedS.length;
  const abouts = new Float64Array(length);
  const sizes = new Float64Array(length);
  let count = 0;
  const stepS = lag * usualS;
  const stride = Math.max(1, lag >> 1);
  for (let i = 2 * lag; i + 2 * lag < length; i += stride) {
    const a = i - 2 * lag;
    const b = i - lag;
    const d = i + lag;
    const e = i + 2 * lag;
    const even = Math.max(
      Math.abs((elapsedS[b] ?? 0) - (elapsedS[a] ?? 0) - stepS),
      Math.abs((elapsedS[i] ?? 0) - (elapsedS[b] ?? 0) - stepS),
      Math.abs((elapsedS[d] ?? 0) - (elapsedS[i] ?? 0) - stepS),
      Math.abs((elapsedS[e] ?? 0) - (elapsedS[d] ?? 0) - stepS),
    );
    if (even > UNEVEN * stepS) continue;
    const difference =
      (pressurePa[a] ?? 0) -
      4 * (pressurePa[b] ?? 0) +
      6 * (pressurePa[i] ?? 0) -
      4 * (pressurePa[d] ?? 0) +
      (pressurePa[e] ?? 0);
    abouts[count] = pressurePa[i] ?? 0;
    sizes[count] = Math.abs(difference) / Math.sqrt(70);
    count += 1;
  }
  return { pressurePa: abouts.subarray(0, count), sizePa: sizes.subarray(0, count) };
}

/** Variance a² + (r·P)²: the lower and the upper half of the pressures tell the two apart. */
export function growth(differences: Differences): { constantPa2: number; relative2: number } {
  const [lower, upper] = halvesOf(differences);
  const upperPa2 = upper.pressurePa ** 2;
  const spread = upperPa2 - lower.pressurePa ** 2;
  const steepness = (upper.variance - lower.variance) / Math.max(spread, 1e-12);
  const relative2 =
    spread > 0.1 * upperPa2
      ? Math.min(Math.max(steepness, 0), upper.variance / Math.max(upperPa2, 1e-12))
      : 0;
  return { constantPa2: Math.max(upper.variance - relative2 * upperPa2, 0), relative2 };
}

interface Half {
  readonly pressurePa: number;
  readonly variance: number;
}

/** Those at equal pressures go to the lower half first come, first served. */
function halvesOf({ pressurePa, sizePa }: Differences): [Half, Half] {
  const count = pressurePa.length;
  const middle = count >> 1;
  const dividePa = valueAtPlace(pressurePa, middle);
  let below = 0;
  for (const aboutPa of pressurePa) if (aboutPa < dividePa) below += 1;
  const lower = { pressurePa: new Float64Array(middle), sizePa: new Float64Array(middle) };
  const upper = {
    pressurePa: new Float64Array(count - middle),
    sizePa: new Float64Array(count - middle),
  };
  let atDivide = middle - below;
  let [low, high] = [0, 0];
  for (let i = 0; i < count; i += 1) {
    const aboutPa = pressurePa[i] ?? 0;
    const isLow = aboutPa < dividePa || (aboutPa === dividePa && atDivide > 0);
    if (isLow && aboutPa === dividePa) atDivide -= 1;
    const half = isLow ? lower : upper;
    const place = isLow ? low : high;
    half.pressurePa[place] = aboutPa;
    half.sizePa[place] = sizePa[i] ?? 0;
    if (isLow) low += 1;
    else high += 1;
  }
  return [halfOf(lower), halfOf(upper)];
}

function halfOf({ pressurePa, sizePa }: Differences): Half {
  return { pressurePa: median(pressurePa), variance: robustVariance(sizePa) };
}

/**
 * From the median, which a third of spikes leaves alone; where steps make most differences equal it
 * falls to nothing, and the mean square without the largest twentieth stands in.
 */
function robustVariance(sizes: Float64Array): number {
  if (sizes.length === 0) return 0;
  const sorted = sizes.slice().sort();
  const kept = Math.max(1, Math.floor(sorted.length * 0.95));
  let sum = 0;
  for (let i = 0; i < kept; i += 1) sum += (sorted[i] ?? 0) ** 2;
  // Of a normal distribution, the mean square of the inner 95 % is 0.759 of the variance.
  const trimmed = sum / kept / 0.759;
  const byMedian = (SIGMA_PER_MAD * median(sizes)) ** 2;
  return Math.max(byMedian, Math.min(trimmed, 4 * byMedian + trimmed / 4));
}

export function spreadOf(
  { pressurePa, sizePa }: Differences,
  shape: (pressurePa: number) => number,
): number {
  const sizes = new Float64Array(sizePa.length);
  for (let i = 0; i < sizes.length; i += 1) {
    sizes[i] = (sizePa[i] ?? 0) / Math.sqrt(shape(pressurePa[i] ?? 0));
  }
  return robustVariance(sizes);
}
