/** Zooms or moves a stretch of time: pure. */
import type { TimeRange } from '../figure/time-range.ts';

const SHORTEST_S = 10;
const LONGEST_S = 7 * 86_400;

/**
 * @param factor below 1 zooms in
 * @param shift in widths, to the right
 * @param around the place that stays where it is, 0 left to 1 right
 */
export function stretch(
  range: TimeRange,
  factor: number,
  shift: number,
  around: number,
): TimeRange {
  const widthS = range.toS - range.fromS;
  const newS = Math.min(LONGEST_S, Math.max(SHORTEST_S, widthS * factor));
  const fixedS = range.fromS + widthS * around;
  const fromS = fixedS - newS * around + shift * newS;
  return { fromS, toS: fromS + newS };
}
