/** The one check that tells the likely causes of a stall apart, with what each outcome means. */
import type { Cause } from '../analysis/conclusions.ts';
import type { Speech } from './speech.ts';

export interface TellingCheck {
  readonly todo: string;
  /** What is seen, and what it means. */
  readonly outcomes: readonly string[];
  /** Where the work can hurt; empty where it can't. */
  readonly caution: string;
}

/**
 * @param causes those that are worth a check, the likeliest first
 * @returns null where there is but one, or nothing that a check tells apart
 */
export function tellingCheck(causes: readonly Cause[], { wording }: Speech): TellingCheck | null {
  const words = wording.tellingCheck;
  const has = (...some: Cause[]) => some.some((cause) => causes.includes(cause));
  const stalling = causes.filter((cause) => cause !== 'gas');
  if (stalling.length < 2 || has('rising', 'sensor')) return null;
  if (has('ballast')) return words.ballast;
  if (has('boil_off')) return words.warm;
  return has('floor', 'wet_oil') ? words.valveOff : null;
}
