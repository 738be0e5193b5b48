/** Whether the curve levels off above the target, and where. */
import type { Estimate } from '../conclusions.ts';
import { median } from '../fitting/median.ts';
import { LONGEST_S } from './outlook.ts';
import { mayStandOnIce, mayStandOnWarmIce, mayStandOnWater } from './plateau.ts';
import type { PullDownPoint } from './pull-down-points.ts';
import { TailSlopes, type TailExponent } from './tail-exponent.ts';

/**
 * The slowest law that anything on its way to the target follows is a power of time: gas that walls
 * and oil let go. Where not even that, going on as it has, would be there in eight hours, the curve
 * levels off: with this part of it or less, a setting of ours, since a fall can quicken again. It has had
 * three minutes: the bend from gas to the tail looks like a floor at first.
 */
const LEVEL_BELOW = 0.8;
const LEAST_S = 180;

/**
 * Where water or ice may stand a flat curve is no floor yet: a plateau ends, and without warning. How
 * steep it may be at most grows with the square of its age, since a plateau shows what it is by cooling
 * and drying up, or rising while ice is warmed.
 */
interface Caution {
  readonly leastS: number;
  /** The exponent allowed after ten minutes … */
  readonly flatBelow: number;
  /** … and at any age. */
  readonly flatAtMost: number;
}
const AGE_S = 600;
/**
 * Cold ice, which little heat reaches, is seldom met, and what stands on it soon shows it by rising.
 * Warm ice may stand for half an hour as flat as a floor. Water is what boils off on most jobs; there
 * only time tells a plateau from a leak that balances the pump. Set on training curves of two simulated
 * worlds and of formulas: of the wet systems that do get there one in twenty-five at most, in each of
 * the three, is told that it doesn't. By a thousand pull-downs of the one world and not by five hundred: of the
 * second half three times as many had been told so.
 */
const ON_COLD_ICE: Caution = { leastS: 600, flatBelow: 0.03, flatAtMost: 0.2 };
const ON_WARM_ICE: Caution = { leastS: 600, flatBelow: 0.015, flatAtMost: 0.2 };
const ON_WATER: Caution = { leastS: 1500, flatBelow: 0.0025, flatAtMost: 0.02 };
/** The latest parts of its age over which the slope is taken … */
const PARTS = [0.6, 0.4, 0.25];
/** … and, where water or ice may stand, one more: it must not have come down so much faster before. */
const LONG_PART = 0.8;
const LONG_TIMES = 1.5;
/**
 * What rises is no floor, nor what would rise soon if it goes on bending as it does: ice is warmed, gas
 * is let in. Over the longest of the parts that is a fall of ln(1/0.4) · 0.003 = 0.3 %, less than any
 * thermal gauge holds still.
 */
const RISING_BEYOND = -0.003;
/** So many times the bend from the last but one part to the last is still to come: a setting of ours. */
const BENDS_ON = 1.5;
/**
 * It has been flat for the last sixth of its age. Water that cools itself and then is warmed goes through
 * a lowest pressure, where it is as flat as a floor, but not for long. A setting of ours.
 */
const STANDS = 0.16;

/**
 * Where the curve levels off, or null where it doesn't, or where that isn't known: between where a
 * power of time would be in eight hours, and where it is now. Once it was flat enough for long
 * enough it takes more to call it off: that since then the slowest law on its way would have been there in
 * eight hours.
 * @param points by equal parts of the age (`agedPoints`), since the pump was switched on, or the last
 * change of the rig, at `sinceS`
 */
export function levelOf(
  points: readonly PullDownPoint[],
  sinceS: number,
  targetPa: number,
): Estimate | null {
  const slopes = new TailSlopes(points, sinceS);
  let level: Estimate | null = null;
  let flatToS: number | null = null;
  for (let count = points.length; count > 0; count -= 1) {
    const latest = points.slice(Math.max(count - 3, 0), count);
    const found = slopeOf(slopes, latest, count, sinceS, targetPa);
    if (found === 'too_early') return null;
    if (found === 'unknown') continue;
    if (found === null || !found.isShort) return null;
    level ??= found.level;
    flatToS = found.isFlat ? (flatToS ?? found.ageS) : null;
    if (flatToS !== null && found.ageS <= (1 - STANDS) * flatToS) return level;
  }
  return null;
}

interface Slope {
  readonly ageS: number;
  /** Not even a power of time would be there in eight hours. */
  readonly isShort: boolean;
  /** So much so that it levels off. */
  readonly isFlat: boolean;
  readonly level: Estimate;
}

/**
 * After the first `count` points, of which `latest` are the last; null where it is below the target.
 */
function slopeOf(
  slopes: TailSlopes,
  latest: readonly PullDownPoint[],
  count: number,
  sinceS: number,
  targetPa: number,
): Slope | 'too_early' | 'unknown' | null {
  const ageS = (latest.at(-1)?.elapsedS ?? sinceS) - sinceS;
  const pressurePa = median(latest.map((point) => point.pressurePa));
  if (pressurePa <= targetPa) return null;
  const caution = cautionAt(pressurePa);
  if (ageS < LEAST_S) return 'too_early';
  if (ageS < (caution?.leastS ?? LEAST_S)) return 'unknown';
  const exponents = PARTS.flatMap((part) => slopes.until(count, part * ageS) ?? []);
  if (exponents.length < PARTS.length) return 'unknown';
  const ahead = Math.log(Math.max(LONGEST_S / ageS, 1.5));
  const needed = Math.log(pressurePa / targetPa) / ahead;
  const steepest = Math.max(...exponents.map(({ value }) => value));
  const most = Math.max(...exponents.map(({ value, error }) => value + error));
  const limit = Math.min(LEVEL_BELOW * needed, flatBelow(caution, ageS));
  const long = caution === null ? null : slopes.until(count, LONG_PART * ageS);
  const cameDown = long !== null && long.value + long.error >= LONG_TIMES * limit;
  return {
    ageS,
    isShort: steepest < needed,
    isFlat: most < limit && !cameDown && lowestNext(exponents) >= RISING_BEYOND,
    level: {
      // Half way, in its logarithm, between the two.
      estimate: pressurePa * Math.exp((-steepest * ahead) / 2),
      low: pressurePa * Math.exp(-most * ahead),
      high: pressurePa,
    },
  };
}

/** The lowest of the exponents so far, and of the one to come if they go on as they did of late. */
function lowestNext(exponents: readonly TailExponent[]): number {
  const values = exponents.map(({ value }) => value);
  const [before = 0, last = 0] = values.slice(-2);
  return Math.min(...values, last - BENDS_ON * (before - last));
}

function cautionAt(pressurePa: number): Caution | null {
  if (mayStandOnWater(pressurePa)) return ON_WATER;
  if (mayStandOnWarmIce(pressurePa)) return ON_WARM_ICE;
  return mayStandOnIce(pressurePa) ? ON_COLD_ICE : null;
}

function flatBelow(caution: Caution | null, ageS: number): number {
  if (caution === null) return Infinity;
  return Math.min(caution.flatBelow * (ageS / AGE_S) ** 2, caution.flatAtMost);
}
