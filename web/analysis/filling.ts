/** Whether the system has been filled: with nitrogen, or with air. Faster than any leak that a pump held. */
import type { Trace } from './trace.ts';

/** Above half an atmosphere, going up, the system counts as open. */
export const NEAR_ATMOSPHERE_PA = 50_000;
/** The foot of the rise lies within so long before … */
const FOOT_WITHIN_S = 90;
/** … at the lowest point there, give or take this in ln P. */
const FOOT_SHARE = 0.1;
/**
 * What flowed in before the valve was closed, the pump carried off: Q = S·P. So a hold starts to rise
 * by no more than P·S/V a second, and S/V shows in the pull-down as the quickest fall of ln P. This
 * many times as fast is no hold: a setting of ours, for the falls that the sensor did not see.
 */
const FASTER_TIMES = 4;
/** Where no fall was seen: a slow one. */
const USUAL_FALL_PER_S = 0.02;

export interface Filled {
  /** When it began. */
  readonly sinceS: number;
  /** From there. */
  readonly footPa: number;
  /** Faster than any leak could. */
  readonly fast: boolean;
}

/**
 * @param index last in-range reading below half an atmosphere
 * @param nowS first moment above that, or over range
 * @param topPa at least so high was it then
 * @param fallPerS quickest fall of ln P in the pull-down, 1/s
 */
export function filledBy(
  trace: Trace,
  index: number,
  { nowS, topPa, fallPerS }: { nowS: number; topPa: number; fallPerS: number },
): Filled {
  let lowest = index;
  for (let i = index; i >= 0 && trace.timeS(i) >= nowS - FOOT_WITHIN_S; i -= 1) {
    if (trace.log(i) < trace.log(lowest)) lowest = i;
  }
  let foot = index;
  while (foot > lowest && trace.log(foot) > trace.log(lowest) + FOOT_SHARE) foot -= 1;
  const sinceS = trace.timeS(foot);
  const footPa = trace.pressuresPa[foot] ?? 0;
  const perS = Math.max(topPa - footPa, 0) / Math.max(nowS - sinceS, 0.5);
  return { sinceS, footPa, fast: perS > mostPaPerS(footPa, fallPerS) };
}

/** A hold, or a pump that stands still behind its valve, rises by less, Pa/s. */
export function mostPaPerS(footPa: number, fallPerS: number): number {
  return FASTER_TIMES * footPa * Math.max(fallPerS, USUAL_FALL_PER_S);
}
