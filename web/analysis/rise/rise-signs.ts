/** What makes a hold no ordinary rise: a falling pressure, a silence. */
import { median } from '../fitting/median.ts';
import { SIGMA_PER_MAD } from '../readings/samples.ts';
import type { RisePoint } from './rise-points.ts';

/** So long on either side without a reading is a gap, where it is also a fifth of the hold. */
const GAP_S = 30;
const GAP_SHARE = 0.2;

/** A slope must be this many of its standard errors below zero … */
const FALLING_SIGMAS = 5;
/** … and have cost this part of the pressure, before the hold counts as falling. */
const FALLING_SHARE = 0.02;

/** True where the pressure has fallen, beyond doubt, over the latter half of the hold. */
export function isFalling(points: readonly RisePoint[]): boolean {
  const lastS = points.at(-1)?.heldS ?? 0;
  const half = points.filter(({ heldS }) => heldS >= lastS / 2);
  if (half.length < 8) return false;
  const meanS = half.reduce((sum, { heldS }) => sum + heldS, 0) / half.length;
  const meanPa = half.reduce((sum, { pressurePa }) => sum + pressurePa, 0) / half.length;
  const spread = half.reduce((sum, { heldS }) => sum + (heldS - meanS) ** 2, 0);
  const slope =
    half.reduce((sum, p) => sum + (p.heldS - meanS) * (p.pressurePa - meanPa), 0) / spread;
  const rest = half.reduce(
    (sum, p) => sum + (p.pressurePa - meanPa - slope * (p.heldS - meanS)) ** 2,
    0,
  );
  const sigma = Math.sqrt(rest / (half.length - 2) / spread);
  return slope < -FALLING_SIGMAS * sigma && -slope * (lastS / 2) > FALLING_SHARE * meanPa;
}

/** A first fall counts from this many deviations of the noise on, and from this share of the pressure. */
const EVENING_SIGMAS = 4;
const EVENING_SHARE = 0.005;
/** It is over where nine tenths of it are. */
const EVENING_DONE = 0.9;

/**
 * How long the pressure fell at first, while pressures evened out along the lines, s; 0 where it did not.
 * What has been seen of a leak until then may be no more than the balance of the two.
 */
export function evenedAfterS(points: readonly RisePoint[]): number {
  const pressures = points.map((_, i) =>
    median(points.slice(Math.max(i - 1, 0), i + 2).map(({ pressurePa }) => pressurePa)),
  );
  const lowestPa = Math.min(...pressures);
  const lowestAt = pressures.indexOf(lowestPa);
  const highestPa = Math.max(lowestPa, ...pressures.slice(0, lowestAt + 1));
  const fellPa = highestPa - lowestPa;
  if (fellPa < EVENING_SHARE * highestPa || fellPa < EVENING_SIGMAS * scatterOf(pressures))
    return 0;
  const done = pressures.findIndex(
    (pressurePa, i) =>
      i >= pressures.indexOf(highestPa) && pressurePa < highestPa - EVENING_DONE * fellPa,
  );
  return points[done]?.heldS ?? 0;
}

/** From one point to the next, about a straight line. */
function scatterOf(pressures: readonly number[]): number {
  const wiggles = pressures
    .slice(2)
    .map((pressurePa, i) =>
      Math.abs(pressurePa - 2 * (pressures[i + 1] ?? 0) + (pressures[i] ?? 0)),
    );
  return (SIGMA_PER_MAD * median(wiggles)) / Math.sqrt(6);
}

/** True where a silence leaves too much of the hold unseen. */
export function hasGap(points: readonly RisePoint[], heldS: number): boolean {
  const times = [0, ...points.map((point) => point.heldS), heldS];
  const longest = times.reduce(
    (most, timeS, i) => Math.max(most, timeS - (times[i - 1] ?? timeS)),
    0,
  );
  return longest > GAP_S && longest > GAP_SHARE * heldS;
}
