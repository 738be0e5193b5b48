/** When a depth was reached and held. */
import { runningMedian } from './median.ts';
import type { Sample } from './samples.ts';

/** Held means: below the limit all this long … */
const HELD_S = 10;
/** … and in at least this many samples, so that two odd readings are not a depth. */
const HELD_SAMPLES = 3;
/** Lost again once it stands a quarter higher for as long: a setting of ours, against flapping. */
const LOST_FACTOR = 1.25;

/**
 * The moment from which the curve was no higher than `limitPa` for 10 s and three samples, or null.
 * Looks at the median of five samples, so that a spike neither makes nor breaks it. It is known
 * 10 s after the fact.
 */
export function firstHeldBelowS(samples: readonly Sample[], limitPa: number): number | null {
  if (isNeverBelow(samples, limitPa)) return null;
  const medians = mediansOf(samples);
  const run = new Run();
  for (const [i, { elapsedS }] of samples.entries()) {
    if (run.holdsAt(elapsedS, (medians[i] ?? Infinity) <= limitPa)) return run.sinceS;
  }
  return null;
}

/** The same for the latest stretch: null where the depth has been lost since. */
export function heldBelowSinceS(samples: readonly Sample[], limitPa: number): number | null {
  if (isNeverBelow(samples, limitPa)) return null;
  const medians = mediansOf(samples);
  const [below, above] = [new Run(), new Run()];
  let heldSinceS: number | null = null;
  for (const [i, { elapsedS }] of samples.entries()) {
    const pressurePa = medians[i] ?? Infinity;
    if (below.holdsAt(elapsedS, pressurePa <= limitPa)) heldSinceS ??= below.sinceS;
    if (above.holdsAt(elapsedS, pressurePa > LOST_FACTOR * limitPa)) heldSinceS = null;
  }
  return heldSinceS;
}

/** A stretch in which something has held without a break. */
class Run {
  #samples = 0;
  sinceS: number | null = null;

  /** True once it has held for long enough. */
  holdsAt(elapsedS: number, holds: boolean): boolean {
    if (!holds) {
      this.sinceS = null;
      this.#samples = 0;
      return false;
    }
    this.sinceS ??= elapsedS;
    this.#samples += 1;
    return this.#samples >= HELD_SAMPLES && elapsedS - this.sinceS >= HELD_S;
  }
}

/** During most of a pull-down, and then no median need be looked at. */
function isNeverBelow(samples: readonly Sample[], limitPa: number): boolean {
  return samples.every(({ pressurePa }) => pressurePa > limitPa);
}

function mediansOf(samples: readonly Sample[]): number[] {
  return runningMedian(
    samples.map(({ pressurePa }) => pressurePa),
    2,
    2,
  );
}
