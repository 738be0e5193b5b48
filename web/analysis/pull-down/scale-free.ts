/** How long something lasts of which only its age is known. */

/**
 * Now is any moment of it, and so it lasts longer than x times its age with probability 1/(1 + x): the
 * only law without a scale of time (Gott, Implications of the Copernican principle for our future
 * prospects, Nature 363, 1993, 315). Physics moves its middle away from x = 1, and narrows it.
 */
export interface ScaleFree {
  readonly ageS: number;
  /** It can't be over sooner. */
  readonly leastS: number;
  /** As likely as not it lasts so many times its age beyond that. */
  readonly times: number;
  /** A curve is seen meanwhile. */
  readonly isSeen: boolean;
}

/**
 * The power of x. Gott's law, of power 1, has eight of ten between a ninth and nine times the age, and so it is
 * while nothing is seen.
 */
const POWER_UNSEEN = 1;
/**
 * Where a curve is seen: above the middle it is narrower, since what never ends shows itself; below it is wider,
 * since a plateau that has lasted may end at once. Settings of ours, from training curves of two worlds and of
 * formulas.
 */
const POWER_BELOW = 0.4;
const POWER_ABOVE = 2.2;

function powerOf(isSeen: boolean, isBelow: boolean): number {
  if (!isSeen) return POWER_UNSEEN;
  return isBelow ? POWER_BELOW : POWER_ABOVE;
}

/** Probability that it is over by then. */
export function overBy({ ageS, leastS, times, isSeen }: ScaleFree, afterS: number): number {
  if (afterS <= leastS) return 0;
  const x = (afterS - leastS) / (times * ageS);
  const odds = x ** powerOf(isSeen, x < 1);
  return odds / (1 + odds);
}

/** The inverse of `overBy`. */
export function overAfterS(
  { ageS, leastS, times, isSeen }: ScaleFree,
  probability: number,
): number {
  const odds = probability / (1 - probability);
  return leastS + times * ageS * odds ** (1 / powerOf(isSeen, odds < 1));
}

/**
 * Density over the logarithm of time of Gott's own law, but for a constant: what is believed of how
 * long is left before any extrapolation.
 */
export function densityOf(ageS: number, times: number, afterS: number): number {
  const odds = afterS / (times * ageS);
  return odds / (1 + odds) ** 2;
}

/** Probability by Gott's own law that it goes on for longer than that. */
export function stillOn(ageS: number, times: number, afterS: number): number {
  return 1 / (1 + afterS / (times * ageS));
}
