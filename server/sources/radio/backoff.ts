/** How long to wait before trying again. */

export interface Backoff {
  readonly firstMs: number;
  readonly longestMs: number;
}

/**
 * The wait before attempt number `failures` + 1: it doubles with every failure up to the longest,
 * and each is shortened by chance to between half and the whole, so that two who failed together
 * don't try together.
 *
 * @param failures failures in a row so far, 1 or more
 * @param chance evenly distributed in [0, 1)
 */
export function backoffMs(backoff: Backoff, failures: number, chance: number): number {
  const whole = Math.min(backoff.longestMs, backoff.firstMs * 2 ** (failures - 1));
  return whole * (1 - chance / 2);
}
