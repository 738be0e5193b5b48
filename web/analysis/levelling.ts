/** Whether the curve levels off above the target. */
import { LONGEST_S } from './outlook.ts';
import type { PullDownPoint } from './pull-down-points.ts';
import { isInBoilingRange } from './plateau.ts';

/**
 * The slowest law that anything on its way to the target follows is a power of time: gas that walls
 * and oil let go. Where not even that, going on as it has, would be there in eight hours, the curve
 * levels off.
 */
const LEVEL_BELOW = 1;
/**
 * Where water may be boiling a flat curve is no floor yet, since a plateau ends; but boiling water
 * cools, and its pressure falls by more than this part of what would be needed. Set on training
 * curves of two simulated worlds.
 */
const LEVEL_BELOW_BOILING = 0.2;
/** It has had three minutes: the bend from gas to the tail looks like a floor at first … */
const LEAST_S = 180;
/** … and eight where water may be boiling. */
const LEAST_BOILING_S = 480;
/** The latest parts over which the slope is taken. */
const PARTS = [0.5, 0.25];
const LEAST_POINTS = 6;

/** @param points since the pump was switched on, or the last change of the rig, at `sinceS` */
export function levelsOff(
  points: readonly PullDownPoint[],
  sinceS: number,
  pressurePa: number,
  targetPa: number,
): boolean {
  const ageS = (points.at(-1)?.elapsedS ?? sinceS) - sinceS;
  const mayBoil = isInBoilingRange(pressurePa);
  if (ageS < (mayBoil ? LEAST_BOILING_S : LEAST_S) || pressurePa <= targetPa) return false;
  const needed = Math.log(pressurePa / targetPa) / Math.log(Math.max(LONGEST_S / ageS, 1.5));
  const limit = (mayBoil ? LEVEL_BELOW_BOILING : LEVEL_BELOW) * needed;
  return PARTS.every((part) => {
    const exponent = highExponent(points, sinceS, part * ageS);
    return exponent !== null && exponent < limit;
  });
}

/** −d ln P/d ln t over the latest so many seconds, plus its standard error; null with too few points. */
function highExponent(
  points: readonly PullDownPoint[],
  sinceS: number,
  lengthS: number,
): number | null {
  const fromS = (points.at(-1)?.elapsedS ?? 0) - lengthS;
  const late = points.filter(({ elapsedS }) => elapsedS >= fromS && elapsedS > sinceS);
  if (late.length < LEAST_POINTS) return null;
  const x = late.map(({ elapsedS }) => Math.log(elapsedS - sinceS));
  const y = late.map(({ pressurePa }) => Math.log(pressurePa));
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const spread = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const slope = x.reduce((sum, v, i) => sum + (v - meanX) * ((y[i] ?? 0) - meanY), 0) / spread;
  const rest = y.reduce((sum, v, i) => sum + (v - meanY - slope * ((x[i] ?? 0) - meanX)) ** 2, 0);
  return -slope + Math.sqrt(rest / (late.length - 2) / spread);
}
