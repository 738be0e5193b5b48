/** A part of a whole with its interval. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { Speech } from './speech.ts';

/** An interval this wide says nothing. A setting of ours. */
const SAYS_NOTHING = 0.8;

/** 'about 27 %, between 22 and 31'; where the interval is nearly everything it says so. */
export function sayPercentBetween(share: Estimate | null, { wording }: Speech): string {
  const words = wording.amounts;
  if (share === null) return words.nothingRises;
  const { estimate, low, high } = share;
  if (high - low > SAYS_NOTHING) return words.notToldApart;
  const percent = (value: number) => String(Math.round(value * 100));
  if (percent(low) === percent(high)) return `${percent(estimate)} %`;
  return words.aboutBetween({
    about: `${percent(estimate)} %`,
    low: percent(low),
    high: percent(high),
  });
}

/** A probability: '93 %', and never a whole one. */
export function sayChance(chance: number): string {
  return `${Math.min(Math.max(Math.round(chance * 100), 1), 99)} %`;
}
