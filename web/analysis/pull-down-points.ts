/**
 * The readings of a pull-down, thinned in two ways: every second of the last minute and wider steps
 * before, for what is to come; and by equal parts of the age, for what it was at each moment so far.
 */
import { median } from './median.ts';
import type { Sample } from './samples.ts';

export interface PullDownPoint {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

/** Groups grow with their age by 5 %: some 90 points in ten minutes, 180 in a day. */
const GROWTH = 0.05;

/** @param samples in order of time, none later than `nowS` */
export function pullDownPoints(samples: readonly Sample[], nowS: number): PullDownPoint[] {
  const points: PullDownPoint[] = [];
  let group: Sample[] = [];
  let earliestS = Infinity;
  for (let i = samples.length - 1; i >= 0; i -= 1) {
    const sample = samples[i];
    if (!sample) continue;
    if (group.length > 0 && sample.elapsedS < earliestS) {
      points.push(pointOf(group));
      group = [];
    }
    if (group.length === 0) {
      earliestS = sample.elapsedS - Math.max(0.9, GROWTH * (nowS - sample.elapsedS));
    }
    group.push(sample);
  }
  if (group.length > 0) points.push(pointOf(group));
  return points.reverse();
}

/** Each group is later than the one before by this part of the age: 240 of them in eight hours. */
const AGE_STEP = 0.02;
/** Groups before that would be shorter than a bin of the readings. */
const YOUNGEST_S = 30;

/**
 * Groups that are over, the same at every later moment.
 * @param samples in order of time
 * @param sinceS from when the age counts
 */
export function agedPoints(
  samples: readonly Sample[],
  sinceS: number,
  nowS: number,
): PullDownPoint[] {
  const points: PullDownPoint[] = [];
  let group: Sample[] = [];
  let endS = sinceS + YOUNGEST_S;
  const close = () => {
    if (group.length > 0) points.push(pointOf(group));
    group = [];
  };
  for (const sample of samples) {
    if (sample.elapsedS <= sinceS) continue;
    if (sample.elapsedS > endS) close();
    while (sample.elapsedS > endS) endS += AGE_STEP * (endS - sinceS);
    group.push(sample);
  }
  if (nowS >= endS) close();
  return points;
}

function pointOf(group: readonly Sample[]): PullDownPoint {
  return {
    elapsedS: group.reduce((sum, { elapsedS }) => sum + elapsedS, 0) / group.length,
    pressurePa: median(group.map(({ pressurePa }) => pressurePa)),
  };
}
