/**
 * The readings of a pull-down, thinned in two ways: every second of the last minute and wider steps
 * before, for what is to come; and by equal parts of the age, for what it was at each moment so far.
 */
import { medianInPlace } from '../fitting/median.ts';
import type { Sample } from '../readings/samples.ts';

export interface PullDownPoint {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

/** Groups grow with their age by 5 %: some 90 points in ten minutes, 180 in a day. */
const GROWTH = 0.05;

/** @param samples in order of time, none later than `nowS` */
export function pullDownPoints(samples: readonly Sample[], nowS: number): PullDownPoint[] {
  const points: PullDownPoint[] = [];
  let to = samples.length;
  let earliestS = Infinity;
  for (let i = to - 1; i >= 0; i -= 1) {
    const sample = samples[i];
    if (sample === undefined || sample.elapsedS >= earliestS) continue;
    const { elapsedS } = sample;
    if (i + 1 < to) points.push(pointOf(samples, i + 1, to));
    to = i + 1;
    earliestS = elapsedS - Math.max(0.9, GROWTH * (nowS - elapsedS));
  }
  if (to > 0) points.push(pointOf(samples, 0, to));
  return points.reverse();
}

/** Each group is later than the one before by this part of the age: 240 of them in eight hours. */
const AGE_STEP = 0.02;
/** Groups before that would be shorter than a bin of the readings. */
const YOUNGEST_S = 30;

/**
 * Groups that are over, the same at every later moment (but for what the history itself thins after an
 * hour, which leaves their middles as they are to within the noise).
 * @param samples in order of time
 * @param sinceS from when the age counts
 */
export function agedPoints(
  samples: readonly Sample[],
  sinceS: number,
  nowS: number,
): PullDownPoint[] {
  const points: PullDownPoint[] = [];
  let from = samples.findIndex(({ elapsedS }) => elapsedS > sinceS);
  if (from < 0) return points;
  let endS = sinceS + YOUNGEST_S;
  for (let i = from; i <= samples.length; i += 1) {
    const sample = samples[i];
    if (sample !== undefined && sample.elapsedS <= endS) continue;
    const elapsedS = sample === undefined ? nowS : sample.elapsedS;
    if (elapsedS >= endS && i > from) {
      points.push(pointOf(samples, from, i));
      from = i;
    }
    while (elapsedS > endS) endS += AGE_STEP * (endS - sinceS);
  }
  return points;
}

/** Of the samples from one index to before another. */
function pointOf(samples: readonly Sample[], from: number, to: number): PullDownPoint {
  const count = to - from;
  if (count > pressures.length) pressures = new Float64Array(2 * count);
  let sumS = 0;
  for (let i = from; i < to; i += 1) {
    const sample = samples[i];
    if (sample === undefined) break;
    sumS += sample.elapsedS;
    pressures[i - from] = sample.pressurePa;
  }
  return { elapsedS: sumS / count, pressurePa: medianInPlace(pressures, count) };
}

/** Of one group at a time. */
let pressures = new Float64Array(256);
