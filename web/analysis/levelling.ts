/** Whether the curve levels off above the target, and where. */
import type { Estimate } from './conclusions.ts';
import { median } from './median.ts';
import { LONGEST_S } from './outlook.ts';
import type { PullDownPoint } from './pull-down-points.ts';
import { mayComeToBoil, mayStandOnWater } from './plateau.ts';
import { exponentOf } from './tail-exponent.ts';

/**
 * The slowest law that anything on its way to the target follows is a power of time: gas that walls
 * and oil let go. Where not even that, going on as it has, would be there in eight hours, the curve
 * levels off: with this part of it or less, since a fall can quicken again.
 */
const LEVEL_BELOW = 0.7;
/**
 * Where water may be boiling, or may yet come to, a flat curve is no floor yet: a plateau ends. Most
 * plateaus fall while the water cools and dries up, or rise where ice is warmed; so one that does
 * neither counts as a floor, the more easily the longer it has lasted: exponents below this after ten
 * minutes, growing with the age's square, and never above that. Set on training curves of two
 * simulated worlds; in one of them plateaus are as flat as floors, and nothing helps but time.
 */
const FLAT_BELOW = 0.015;
const FLAT_AT_MOST = 0.07;
const RISING_BEYOND = -0.003;
/** It has had three minutes: the bend from gas to the tail looks like a floor at first … */
const LEAST_S = 180;
/** … and ten where water may be boiling, or ice giving off vapour. */
const LEAST_BOILING_S = 600;
/** The latest parts over which the slope is taken. */
const PARTS = [0.6, 0.4, 0.25];
/**
 * Once called, it takes more to call it off: at one of these parts of its age it was flat enough, and
 * ever since not even the slowest law on its way would have been there in eight hours.
 */
const MOMENTS = [1, 0.98, 0.96, 0.94, 0.92, 0.9, 0.87, 0.84, 0.8, 0.75, 0.7, 0.65, 0.6];

/**
 * Where the curve levels off, or null where it doesn't, or where that isn't known: between where a
 * power of time would be in eight hours, and where it is now.
 * @param points since the pump was switched on, or the last change of the rig, at `sinceS`
 */
export function levelOf(
  points: readonly PullDownPoint[],
  sinceS: number,
  targetPa: number,
): Estimate | null {
  const ageS = (points.at(-1)?.elapsedS ?? sinceS) - sinceS;
  let level: Estimate | null = null;
  for (const moment of MOMENTS) {
    const untilS = sinceS + moment * ageS;
    const then = moment === 1 ? points : points.filter(({ elapsedS }) => elapsedS <= untilS);
    const found = slopeOf(then, sinceS, targetPa);
    if (found === 'unknown') continue;
    if (found === null || !found.isShort) return null;
    level ??= found.level;
    if (found.isFlat) return level;
  }
  return null;
}

interface Slope {
  /** Not even a power of time would be there in eight hours. */
  readonly isShort: boolean;
  /** So much so that it levels off. */
  readonly isFlat: boolean;
  readonly level: Estimate;
}

/** Null where it is below the target. */
function slopeOf(
  points: readonly PullDownPoint[],
  sinceS: number,
  targetPa: number,
): Slope | 'unknown' | null {
  const ageS = (points.at(-1)?.elapsedS ?? sinceS) - sinceS;
  const pressurePa = median(points.slice(-3).map((point) => point.pressurePa));
  const mayBoil = mayStandOnWater(pressurePa);
  if (pressurePa <= targetPa) return null;
  if (ageS < (mayBoil ? LEAST_BOILING_S : LEAST_S)) return 'unknown';
  const ahead = Math.log(Math.max(LONGEST_S / ageS, 1.5));
  const needed = Math.log(pressurePa / targetPa) / ahead;
  const flat = Math.min(FLAT_BELOW * (ageS / LEAST_BOILING_S) ** 2, FLAT_AT_MOST);
  const slow = LEVEL_BELOW * needed;
  const limit = mayComeToBoil(pressurePa) ? Math.min(flat, slow) : slow;
  const exponents = PARTS.flatMap((part) => exponentOf(points, sinceS, part * ageS) ?? []);
  if (exponents.length < PARTS.length) return 'unknown';
  const steepest = Math.max(...exponents.map(({ value }) => value));
  const most = Math.max(...exponents.map(({ value, error }) => value + error));
  const rises = mayBoil && exponents.some(({ value }) => value < RISING_BEYOND);
  return {
    isShort: steepest < needed,
    isFlat: most < limit && !rises,
    level: {
      // Half way, in its logarithm, between the two.
      estimate: pressurePa * Math.exp((-steepest * ahead) / 2),
      low: pressurePa * Math.exp(-most * ahead),
      high: pressurePa,
    },
  };
}
