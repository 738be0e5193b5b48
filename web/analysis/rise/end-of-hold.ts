/** Where a hold will end: what the mixtures leave open, and what none of them knows. */
import type { Estimate } from '../conclusions.ts';
import type { Quantiles } from './estimate-cells.ts';

/**
 * Rises bend less than the mixtures believe: with the middle for an estimate the truth was above it in 56 to 71 of a
 * hundred holds, and above an upper twentieth in 7 to 11, in each of two worlds that share no model (`npm run
 * accuracy`, training seeds). So the estimate lies a little above the middle, and less is left above the upper end.
 */
export const END_QUANTILES: Quantiles = { lowTail: 0.05, middle: 0.56, highTail: 0.04 };

/**
 * No system is a sum of a few exponentials: so much of what is still to come may be other than any of them says,
 * one standard deviation. It shows where no noise hides it: `tests/bench/accuracy/oracle-end.ts`.
 */
const MISFIT_SHARE = 0.07;
/** Of a normal distribution: half of its 90 % interval in deviations. */
const NINETY_PERCENT = 1.645;

/** @param presentPa from there on it is foretold */
export function endOfHold({ estimate, low, high }: Estimate, presentPa: number): Estimate {
  const misfitPa = NINETY_PERCENT * MISFIT_SHARE * Math.abs(estimate - presentPa);
  return {
    estimate,
    low: estimate - Math.hypot(estimate - low, misfitPa),
    high: estimate + Math.hypot(high - estimate, misfitPa),
  };
}
