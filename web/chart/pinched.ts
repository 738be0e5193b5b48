/** What two fingers make of a stretch of time: pure. */
import type { TimeRange } from '../figure/time-range.ts';

/** Where two fingers are across the picture, 0 left to 1 right. */
export type Fingers = readonly [number, number];

/** Closer together than this they say nothing. */
const CLOSEST = 0.02;

/** The moments that were under the fingers stay under them. */
export function pinched(range: TimeRange, from: Fingers, to: Fingers): TimeRange {
  const widthS = range.toS - range.fromS;
  const apart = Math.max(CLOSEST, Math.abs(from[1] - from[0]));
  const newApart = Math.max(CLOSEST, Math.abs(to[1] - to[0]));
  const newS = (widthS * apart) / newApart;
  const middleS = range.fromS + (widthS * (from[0] + from[1])) / 2;
  const fromS = middleS - (newS * (to[0] + to[1])) / 2;
  return { fromS, toS: fromS + newS };
}
