/** A pull-down as few points: enough for what is compared with an expected curve, however long it lasts. Pure. */
import { median } from '../analysis/fitting/median.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';

interface FallPoint {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

/** Each point's age is by so much greater than that of the one before, and by so many seconds at least. */
const WIDER = 1.06;
const LEAST_S = 3;
/** Readings on either side of a point's own, whose median counts: a spike is none of them. */
const AROUND = 2;

/** @param fromS where the pull-down begins: the ages count from there */
export function thinnedFall(readings: ChannelReadings, fromS: number, toS: number): FallPoint[] {
  const points: FallPoint[] = [];
  let ageS = LEAST_S;
  while (fromS + ageS <= toS) {
    const row = readings.rowFrom(fromS + ageS);
    if (row >= readings.length) break;
    const elapsedS = readings.elapsedS(row);
    if (elapsedS > toS) break;
    const pressurePa = levelAround(readings, row);
    if (pressurePa !== null) points.push({ elapsedS, pressurePa });
    ageS = Math.max((elapsedS - fromS) * WIDER, elapsedS - fromS + LEAST_S);
  }
  return points;
}

function levelAround(readings: ChannelReadings, row: number): number | null {
  const around: number[] = [];
  for (let at = Math.max(row - AROUND, 0); at <= row + AROUND && at < readings.length; at += 1) {
    const pressurePa = readings.pressurePa(at);
    if (pressurePa > 0) around.push(pressurePa);
  }
  return around.length <= AROUND ? null : median(around);
}
