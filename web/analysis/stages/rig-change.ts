/** Whether the rig became another in the midst of a pull-down, though nobody marked it. */
import { isInBoilingRange } from '../pull-down/plateau.ts';
import type { Bend } from './bend.ts';

export interface RigChange {
  readonly atS: number;
  /**
   * False where water may have been boiling: that it is gone looks the same as a ballast that was
   * closed. For a forecast it comes to the same: what was before tells nothing of what follows.
   */
  readonly sure: boolean;
}

/** Once in half a hundred runs, no more: hundreds of stretches are looked at in each. */
const LEAST_SIGMAS = 8;
const LEAST_SHARPNESS = 9;
/**
 * Gas that is pumped, and what walls and oil give off, are sums of decays, Σ Aᵢ·e^(−kᵢt) with Aᵢ ≥ 0.
 * Their logarithm is convex: left alone, ln P falls ever more slowly. So a fall that quickens sharply,
 * by this factor …
 */
const LEAST_RATIO = 1.4;
/** … to 5 % a minute at least, and by so much and so many steps of the sensor, is something else. */
const LEAST_PER_S = 0.05 / 60;
const LEAST_FALL = 0.03;
const LEAST_STEPS = 2.5;
/** Next to the end of the range a sensor’s own bend shows. */
const TOP_SHARE = 0.8;

/**
 * @param bend downward, under pumping
 * @param rangeEndPa of the sensor, or infinite
 */
export function rigChange(bend: Bend, rangeEndPa: number): RigChange | null {
  const { sigmas, sharpness, beforePerS, afterPerS, since, stepShare, log, atS } = bend;
  const bendPa = Math.exp(log);
  if (sigmas < LEAST_SIGMAS || sharpness < LEAST_SHARPNESS) return null;
  if (-afterPerS < Math.max(LEAST_PER_S, -LEAST_RATIO * beforePerS)) return null;
  if (-since < Math.max(LEAST_FALL, LEAST_STEPS * stepShare)) return null;
  return bendPa > TOP_SHARE * rangeEndPa ? null : { atS, sure: !isInBoilingRange(bendPa) };
}
