/** Readings of a hold from before the sensor's range ended. */
import type { TimeBin } from './bin-level.ts';

/** So many bins are looked at together: a lone spike above the range ends nothing. */
const TOGETHER = 10;
/** This part of their readings over range says that the curve has come to the end of it. */
const OVER_SHARE = 0.1;

/**
 * The bins before the range ends. Close below its end only the lower half of the noise is seen, which
 * looks like a rise that levels off: what lies that close is left out as well.
 */
export function inRange(bins: readonly TimeBin[]): readonly TimeBin[] {
  const end = bins.findIndex((bin, i) => {
    if (bin.overRange === 0) return false;
    let over = 0;
    let all = 0;
    for (const { overRange, count } of bins.slice(i, i + TOGETHER)) {
      over += overRange;
      all += overRange + count;
    }
    return over > OVER_SHARE * all;
  });
  if (end === -1) return bins;
  const kept = Math.max(end - TOGETHER, Math.floor(0.8 * end));
  return bins.slice(0, kept);
}
