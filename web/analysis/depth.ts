/** When a depth was first reached and held. */
import { runningMedian } from './median.ts';
import type { Sample } from './samples.ts';

/** Held means: below the limit all this long … */
const HELD_S = 10;
/** … and in at least this many samples, so that two odd readings are not a depth. */
const HELD_SAMPLES = 3;

/**
 * The moment from which the curve was no higher than `limitPa` for 10 s and three samples, or null.
 * Looks at the median of five samples, so that a spike neither makes nor breaks it. It is known
 * 10 s after the fact.
 */
export function firstHeldBelowS(samples: readonly Sample[], limitPa: number): number | null {
  const medians = runningMedian(
    samples.map(({ pressurePa }) => pressurePa),
    2,
    2,
  );
  let sinceS: number | null = null;
  let held = 0;
  for (const [i, { elapsedS }] of samples.entries()) {
    if ((medians[i] ?? Infinity) > limitPa) {
      sinceS = null;
      held = 0;
      continue;
    }
    sinceS ??= elapsedS;
    held += 1;
    if (held >= HELD_SAMPLES && elapsedS - sinceS >= HELD_S) return sinceS;
  }
  return null;
}
