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
}

/**
 * The power of x. Gott's law, of power 1, has eight of ten between a ninth and nine times the age. Above
 * the middle it is narrower: what never ends shows itself. Below it is wider: a plateau that has lasted
 * may end at once. Settings of ours, from training curves of two worlds and of formulas.
 */
const POWER_BELOW = 0.4;
const POWER_ABOVE = 2.2;

/** Probability that it is over by then. */
export function overBy({ ageS, leastS, times }: ScaleFree, afterS: number): number {
  if (afterS <= leastS) return 0;
  const x = (afterS - leastS) / (times * ageS);
  const odds = x ** (x < 1 ? POWER_BELOW : POWER_ABOVE);
  return odds / (1 + odds);
}

/** The inverse of `overBy`. */
export function overAfterS({ ageS, leastS, times }: ScaleFree, probability: number): number {
  const odds = probability / (1 - probability);
  return leastS + times * ageS * odds ** (1 / (odds < 1 ? POWER_BELOW : POWER_ABOVE));
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
