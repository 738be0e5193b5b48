/** An estimate with the interval that holds the truth nine times of ten, as a person says it. */
import type { Estimate } from '../analysis/conclusions.ts';

/** A lower end below this part of the upper one is as good as none. A setting of ours. */
const AS_GOOD_AS_NONE = 0.02;

/**
 * 'about 38 micron a minute, between 34 and 42'; 'no more than 1.2 micron a minute' where it may be none
 * at all.
 * @param digits of a number in the unit
 */
export function sayBetween(
  { estimate, low, high }: Estimate,
  digits: (value: number) => string,
  unit: string,
): string {
  const withUnit = (value: number) => `${digits(value)} ${unit}`.trim();
  if (low <= AS_GOOD_AS_NONE * high) return `no more than ${withUnit(high)}`;
  if (digits(low) === digits(high)) return withUnit(estimate);
  return `about ${withUnit(estimate)}, between ${digits(low)} and ${digits(high)}`;
}
