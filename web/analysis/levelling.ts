/** Whether the curve levels off above the target, and where. */
import type { Estimate } from './conclusions.ts';
import { median } from './median.ts';
import { LONGEST_S } from './outlook.ts';
import type { PullDownPoint } from './pull-down-points.ts';
import { isBelowBoiling } from './plateau.ts';
import { exponentOf } from './tail-exponent.ts';

/**
 * The slowest law that anything on its way to the target follows is a power of time: gas that walls
 * and oil let go. Where not even that, going on as it has, would be there in eight hours, the curve
 * levels off.
 */
const LEVEL_BELOW = 1;
/**
 * Where water may be boiling, or may yet come to, a flat curve is no floor yet: a plateau ends. Most
 * plateaus fall while the water cools, or rise where ice is warmed; only one that does neither, to
 * this part of what would be needed, counts as a floor: the more, the longer it lasts. Set on
 * training curves of two simulated worlds, where larger shares call more of the floors, and too many
 * of the plateaus.
 */
const LEVEL_BELOW_BOILING = 0.06;
const MOST_BELOW_BOILING = 0.12;
const RISING_BEYOND = -0.003;
/** It has had three minutes: the bend from gas to the tail looks like a floor at first … */
const LEAST_S = 180;
/** … and ten where water may be boiling. */
const LEAST_BOILING_S = 600;
/** The latest parts over which the slope is taken, and the moments at which it must have been so. */
const PARTS = [0.5, 0.25];
const MOMENTS = [0.8, 0.9, 1];

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
    const then = points.filter(({ elapsedS }) => elapsedS <= untilS);
    level = levelAt(then, sinceS, targetPa);
    if (level === null) return null;
  }
  return level;
}

function levelAt(
  points: readonly PullDownPoint[],
  sinceS: number,
  targetPa: number,
): Estimate | null {
  const ageS = (points.at(-1)?.elapsedS ?? sinceS) - sinceS;
  const pressurePa = median(points.slice(-3).map((point) => point.pressurePa));
  const mayBoil = !isBelowBoiling(pressurePa);
  if (ageS < (mayBoil ? LEAST_BOILING_S : LEAST_S) || pressurePa <= targetPa) return null;
  const ahead = Math.log(Math.max(LONGEST_S / ageS, 1.5));
  const limit =
    ((mayBoil ? boilingShare(ageS) : LEVEL_BELOW) * Math.log(pressurePa / targetPa)) / ahead;
  let steepest = 0;
  let error = 0;
  for (const part of PARTS) {
    const exponent = exponentOf(points, sinceS, part * ageS);
    if (exponent === null || exponent.value + exponent.error >= limit) return null;
    if (mayBoil && exponent.value < RISING_BEYOND) return null;
    steepest = Math.max(steepest, exponent.value);
    error = Math.max(error, exponent.error);
  }
  return {
    // Half way, in its logarithm, between the two.
    estimate: pressurePa * Math.exp((-steepest * ahead) / 2),
    low: pressurePa * Math.exp(-(steepest + error) * ahead),
    high: pressurePa,
  };
}

function boilingShare(ageS: number): number {
  return Math.min(LEVEL_BELOW_BOILING * (ageS / LEAST_BOILING_S), MOST_BELOW_BOILING);
}
