/** Whether the curve stands on a plateau on which water boils. */
import { TRIPLE_POINT_PA } from '../../../protocol/water.ts';
import type { PullDownPoint } from './pull-down-points.ts';

/**
 * Boiling water cools itself, so that it boils near or below the triple point. A gauge that reads
 * water vapour wrong by a fifth, and water that metal keeps warm, lift the upper end; below 150 Pa
 * (ice at −16 °C) a plateau is more likely something else.
 */
const HIGHEST_PA = 1.25 * TRIPLE_POINT_PA;
const LOWEST_PA = 150;
/** Flat: falling by less than 1.5 % a minute; not flat any more from 6 % a minute on. */
const FLAT_PER_S = 0.015 / 60;
const FALLING_PER_S = 0.06 / 60;

/**
 * Evidence from 0 to 1 that water boils, from pressure and relative rate alone. A floor in this range
 * (a leak that balances the pump) looks the same at first; so this is evidence, not a finding.
 */
export function boilOffEvidence(pressurePa: number, fallPerS: number): number {
  if (!isInBoilingRange(pressurePa)) return 0;
  const share = (FALLING_PER_S - Math.abs(fallPerS)) / (FALLING_PER_S - FLAT_PER_S);
  return Math.min(Math.max(share, 0), 1);
}

/** Where water may be boiling: there a flat curve is no floor yet, since a plateau ends. */
export function isInBoilingRange(pressurePa: number): boolean {
  return pressurePa >= LOWEST_PA && pressurePa <= HIGHEST_PA;
}

/** Water that has begun to boil may not have cooled yet: it stands as high as at 25 °C at most. */
const WARM_PA = 3200;

/** Where a flat curve may be water, boiling or still cooling down to its plateau. */
export function mayBeWater(pressurePa: number): boolean {
  return pressurePa >= LOWEST_PA && pressurePa <= WARM_PA;
}

/** So high that what water there is has not settled on its plateau yet, if there is any. */
export function plateauMayCome(pressurePa: number): boolean {
  return pressurePa > HIGHEST_PA;
}

/**
 * How likely it is that water has to boil away before the pressure goes on as its curve says: sure
 * enough where it seems to boil; not known above where it would; below, where it may still cool
 * itself or dry up slowly, less; and little where only cold ice stands. That is before one looks how
 * long it would take without water. Settings of ours, from training curves of two worlds.
 */
const SHARE_ABOVE = 0.5;
const SHARE_WITHIN = 0.18;
const SHARE_ICE = 0.05;

/**
 * As likely as not a flat curve stands on ice that still has to go, down to its −23 °C (IAPWS, same release as
 * below), however near the depth is: a pump's floor looks the same. Without it half of such training curves of the
 * simulated world were there before the early end of what was foretold. A setting of ours.
 */
const SHARE_FLAT = 0.6;
const COLDEST_ICE_PA = 77;

/**
 * @param depthPa next to it there is little room left for a plateau
 * @param flatness 0 to 1, of the curve of late
 */
export function waterShare(
  pressurePa: number,
  depthPa: number,
  { isBoiling, flatness }: { readonly isBoiling: boolean; readonly flatness: number },
): number {
  const isIce = pressurePa >= COLDEST_ICE_PA && pressurePa > depthPa && !plateauMayCome(pressurePa);
  const asFlat = isIce ? SHARE_FLAT * flatness : 0;
  return Math.max(asFlat, asFalling(pressurePa, depthPa, isBoiling));
}

function asFalling(pressurePa: number, depthPa: number, isBoiling: boolean): number {
  const room = Math.min(Math.max(Math.log(pressurePa / depthPa), 0), 1);
  if (isBoiling) return room;
  if (plateauMayCome(pressurePa)) return SHARE_ABOVE * room;
  if (isInBoilingRange(pressurePa)) return SHARE_WITHIN * room;
  return mayStandOnIce(pressurePa) ? SHARE_ICE * room : 0;
}

/** Ice that little heat reaches stands lower than a plateau is told by: this is its −20 °C. */
const ICE_PA = 103;
/**
 * Water that boils cools itself, but heat from the metal keeps it from going far below freezing: this is
 * the vapour pressure of ice at −5 °C (IAPWS, Release on the Pressure along the Melting and Sublimation
 * Curves of Ordinary Water Substance, 2011). How far it goes depends on the rig: a setting of ours.
 */
const WATER_PA = 402;

/** Where a flat curve may be cold ice, or water, or gas that has not begun to go. */
export function mayStandOnIce(pressurePa: number): boolean {
  return pressurePa >= ICE_PA;
}

/** Ice at −10 °C, by the same release. */
const WARM_ICE_PA = 259.9;

/** Where it may be ice that more heat reaches: that is what some plateaus end up on. */
export function mayStandOnWarmIce(pressurePa: number): boolean {
  return pressurePa >= WARM_ICE_PA;
}

/** Where it may be water, or ice not much below freezing, warm or cold, or gas. */
export function mayStandOnWater(pressurePa: number): boolean {
  return pressurePa >= WATER_PA;
}

/** The slope of a plateau is taken over this long at least. */
const SLOPE_S = 30;

/**
 * When the latest plateau ended on which water seems to have boiled, s, or null without one: before
 * that the curve tells nothing about what follows.
 */
export function plateauEndS(points: readonly PullDownPoint[]): number | null {
  let later = points.length - 1;
  for (let earlier = later - 1; earlier >= 0; earlier -= 1) {
    const [from, to] = [points[earlier], points[later]];
    if (!from || !to) return null;
    const lengthS = to.elapsedS - from.elapsedS;
    if (lengthS < SLOPE_S) continue;
    const fallPerS = Math.log(from.pressurePa / to.pressurePa) / lengthS;
    if (boilOffEvidence(to.pressurePa, fallPerS) >= 0.5) return to.elapsedS;
    later -= 1;
    earlier = later;
  }
  return null;
}
