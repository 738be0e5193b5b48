/** The readings of a pull-down, thinned: every second of the last minute, wider steps before. */
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

function pointOf(group: readonly Sample[]): PullDownPoint {
  return {
    elapsedS: group.reduce((sum, { elapsedS }) => sum + elapsedS, 0) / group.length,
    pressurePa: median(group.map(({ pressurePa }) => pressurePa)),
  };
}
