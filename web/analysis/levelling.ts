/** Whether the curve levels off above the target. */
import { median } from './median.ts';
import { LONGEST_S } from './outlook.ts';
import type { PullDownPoint } from './pull-down-points.ts';
import { isBelowBoiling } from './plateau.ts';

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
const MOMENTS = [1, 0.9, 0.8];
const LEAST_POINTS = 6;
/** Of a part so much must have been seen: what was out of range tells no slope. */
const SEEN_SHARE = 0.7;

/** @param points since the pump was switched on, or the last change of the rig, at `sinceS` */
export function levelsOff(
  points: readonly PullDownPoint[],
  sinceS: number,
  targetPa: number,
): boolean {
  const ageS = (points.at(-1)?.elapsedS ?? sinceS) - sinceS;
  return MOMENTS.every((moment) => {
    const untilS = sinceS + moment * ageS;
    const then = points.filter(({ elapsedS }) => elapsedS <= untilS);
    return seemedLevel(then, sinceS, targetPa);
  });
}

function seemedLevel(points: readonly PullDownPoint[], sinceS: number, targetPa: number): boolean {
  const ageS = (points.at(-1)?.elapsedS ?? sinceS) - sinceS;
  const pressurePa = median(points.slice(-3).map((point) => point.pressurePa));
  const mayBoil = !isBelowBoiling(pressurePa);
  if (ageS < (mayBoil ? LEAST_BOILING_S : LEAST_S) || pressurePa <= targetPa) return false;
  const needed = Math.log(pressurePa / targetPa) / Math.log(Math.max(LONGEST_S / ageS, 1.5));
  const share = mayBoil ? boilingShare(ageS) : LEVEL_BELOW;
  const limit = share * needed;
  return PARTS.every((part) => {
    const exponent = exponentOf(points, sinceS, part * ageS);
    if (exponent === null) return false;
    const { value, error } = exponent;
    return value + error < limit && (!mayBoil || value > RISING_BEYOND);
  });
}

function boilingShare(ageS: number): number {
  return Math.min(LEVEL_BELOW_BOILING * (ageS / LEAST_BOILING_S), MOST_BELOW_BOILING);
}

/** −d ln P/d ln t over the latest so many seconds; null with too few points. */
function exponentOf(
  points: readonly PullDownPoint[],
  sinceS: number,
  lengthS: number,
): { readonly value: number; readonly error: number } | null {
  const fromS = (points.at(-1)?.elapsedS ?? 0) - lengthS;
  const late = points.filter(({ elapsedS }) => elapsedS >= fromS && elapsedS > sinceS);
  const seenS = (late.at(-1)?.elapsedS ?? 0) - (late[0]?.elapsedS ?? 0);
  if (late.length < LEAST_POINTS || seenS < SEEN_SHARE * lengthS) return null;
  const x = late.map(({ elapsedS }) => Math.log(elapsedS - sinceS));
  const y = late.map(({ pressurePa }) => Math.log(pressurePa));
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const spread = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const slope = x.reduce((sum, v, i) => sum + (v - meanX) * ((y[i] ?? 0) - meanY), 0) / spread;
  const rest = y.reduce((sum, v, i) => sum + (v - meanY - slope * ((x[i] ?? 0) - meanX)) ** 2, 0);
  return { value: -slope, error: Math.sqrt(rest / (late.length - 2) / spread) };
}
