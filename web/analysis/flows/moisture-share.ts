/** What part of a rise moisture makes. */
import type { Estimate, Rise } from '../conclusions.ts';

/**
 * Of the rise until the end of the hold, 0 to 1: M/(M + L·t). Moisture and leak are told apart by one
 * curve, so that where one is larger the other is smaller: the ends of the interval take them so.
 * @returns null where neither gives anything
 */
export function moistureShare({ moisturePa, leakPaPerS, endOfHold }: Rise): Estimate | null {
  const share = (moisture: number, leak: number) => {
    const [water, air] = [Math.max(moisture, 0), Math.max(leak, 0) * endOfHold.atS];
    return water + air > 0 ? water / (water + air) : null;
  };
  const estimate = share(moisturePa.estimate, leakPaPerS.estimate);
  if (estimate === null) return null;
  return {
    estimate,
    low: Math.min(share(moisturePa.low, leakPaPerS.high) ?? estimate, estimate),
    high: Math.max(share(moisturePa.high, leakPaPerS.low) ?? estimate, estimate),
  };
}
