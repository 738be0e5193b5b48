/** An estimate with the interval that holds the truth nine times of ten, as a person says it. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { Speech } from './speech.ts';

/** A lower end below this part of the upper one is as good as none. A setting of ours. */
const AS_GOOD_AS_NONE = 0.02;

/**
 * 'about 38 micron a minute, between 34 and 42'; 'no more than 1.2 micron a minute' where it may be none
 * at all.
 * @param digits of a number in the unit
 * @param withUnit what those digits are with their unit
 */
export function sayBetween(
  { estimate, low, high }: Estimate,
  digits: (value: number) => string,
  withUnit: (digits: string) => string,
  { wording }: Speech,
): string {
  const { noMoreThan, aboutBetween } = wording.amounts;
  if (low <= AS_GOOD_AS_NONE * high) return noMoreThan({ most: withUnit(digits(high)) });
  const about = withUnit(digits(estimate));
  if (digits(low) === digits(high)) return about;
  return aboutBetween({ about, low: digits(low), high: digits(high) });
}
