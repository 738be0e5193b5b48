/** Whether something is missing between two neighbouring readings of one sensor. */

/** What tells: the sensor's own boot id and running number, and the data time, s. */
export interface Heard {
  readonly boot: number;
  readonly sequence: number;
  readonly elapsedS: number;
}

/**
 * A silence this many times as long as the usual interval is a gap even where the sequence numbers
 * run on (a setting of ours: an interval that was changed by hand grows by less at a time).
 */
const LONG_SILENCE = 20;
/** And no silence shorter than this is called one, s. */
const SHORTEST_SILENCE_S = 5;
const SEQUENCE_WRAP = 2 ** 32;

/** `before` is the earlier of the two; `usualIntervalS` is what `usualInterval` gives, s. */
export function isGapBetween(before: Heard, after: Heard, usualIntervalS: number): boolean {
  if (after.boot !== before.boot || missingBetween(before, after) > 0) return true;
  const silenceS = after.elapsedS - before.elapsedS;
  return silenceS > Math.max(SHORTEST_SILENCE_S, LONG_SILENCE * usualIntervalS);
}

/** How many readings the running numbers of one boot say are missing. */
export function missingBetween(before: Heard, after: Heard): number {
  const step = (after.sequence - before.sequence + SEQUENCE_WRAP) % SEQUENCE_WRAP;
  return Math.max(0, step - 1);
}

/** How many of the latest intervals the usual one is taken from. */
export const INTERVALS_LOOKED_AT = 51;

/** The median interval, s; 0 where there is none. */
export function usualInterval(intervalsS: readonly number[]): number {
  const ascending = [...intervalsS].sort((a, b) => a - b);
  return ascending[ascending.length >>> 1] ?? 0;
}
