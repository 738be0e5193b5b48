/** The kinds of rise that a verdict has a word for, by inflow and by what has levelled off. */

export const KINDS = [
  'tight_dry',
  'moisture',
  'leak',
  'leak_and_moisture',
  /** A leak for the most part, between its limit and twice that. */
  'small_leak',
  /** No leak, and a rise about as large as is allowed. */
  'some_moisture',
  'neither',
] as const;
export type Kind = (typeof KINDS)[number];

export interface KindLimits {
  readonly leakLimitPaPerS: number;
  readonly allowedRisePa: number;
  readonly holdS: number;
}

/** What is within three fifths of the leak's limit … */
const TIGHT_SHARE = 0.6;
/** … and three quarters of the allowed rise counts as tight and dry: 3 micron a minute, 150 micron. */
const DRY_SHARE = 0.75;
/** A quarter more than allowed is moisture, where at most a fifth of it is inflow. */
const MOIST_SHARE = 1.25;
const LEAK_PART_OF_MOISTURE = 0.2;
/** A leak makes four fifths of the rise, and is twice its limit: 10 micron a minute. */
const LEAK_PART = 0.8;
export const LEAK_LIMITS = 2;

const placeOf = (kind: Kind) => KINDS.indexOf(kind);
const TIGHT_DRY = placeOf('tight_dry');
const MOISTURE = placeOf('moisture');
const LEAK = placeOf('leak');
const BOTH = placeOf('leak_and_moisture');
const SMALL_LEAK = placeOf('small_leak');
const SOME_MOISTURE = placeOf('some_moisture');
const NEITHER = placeOf('neither');

/**
 * Place in `KINDS`.
 * @param levelledPa what levels off, by the end of the hold
 */
export function kindOf(leakPaPerS: number, levelledPa: number, limits: KindLimits): number {
  const { leakLimitPaPerS, allowedRisePa, holdS } = limits;
  const leakedPa = leakPaPerS * holdS;
  const risePa = leakedPa + levelledPa;
  if (leakPaPerS <= TIGHT_SHARE * leakLimitPaPerS && risePa < DRY_SHARE * allowedRisePa) {
    return TIGHT_DRY;
  }
  if (risePa >= MOIST_SHARE * allowedRisePa && leakedPa <= LEAK_PART_OF_MOISTURE * risePa) {
    return MOISTURE;
  }
  if (leakedPa >= LEAK_PART * risePa) {
    if (leakPaPerS >= LEAK_LIMITS * leakLimitPaPerS) return LEAK;
    return leakPaPerS > leakLimitPaPerS ? SMALL_LEAK : NEITHER;
  }
  if (leakPaPerS > leakLimitPaPerS) return BOTH;
  return leakPaPerS <= TIGHT_SHARE * leakLimitPaPerS ? SOME_MOISTURE : NEITHER;
}

/** @param probabilities in the order of `KINDS` */
export function shareOf(probabilities: Float64Array, kind: Kind): number {
  return probabilities[placeOf(kind)] ?? 0;
}
