/** A part of a whole with its interval. */
import type { Estimate } from '../analysis/conclusions.ts';

/** An interval this wide says nothing. A setting of ours. */
const SAYS_NOTHING = 0.8;

/** 'about 27 %, between 22 and 31'; where the interval is nearly everything it says so. */
export function sayPercentBetween(share: Estimate | null): string {
  if (share === null) return 'nothing rises';
  const { estimate, low, high } = share;
  if (high - low > SAYS_NOTHING) return 'not told apart yet';
  const percent = (value: number) => String(Math.round(value * 100));
  if (percent(low) === percent(high)) return `${percent(estimate)} %`;
  return `about ${percent(estimate)} %, between ${percent(low)} and ${percent(high)}`;
}
