/** Whether what comes in is let in, with nitrogen or air: faster than any leak that a pump held. */
import type { Trace } from './trace.ts';

/** The foot of the rise lies within so long before … */
const FOOT_WITHIN_S = 90;
/** … from where it has been nearly as steep as from anywhere … */
const STEEP_SHARE = 0.6;
/** … at the last reading as low as there, give or take this in ln P. */
const FOOT_SHARE = 0.1;
/**
 * What flowed in before the valve was closed, the pump carried off: Q = S·P. So a hold starts to rise
 * by no more than P·S/V a second, and S/V shows in the pull-down as the quickest fall of ln P. This
 * many times as fast is no hold: a setting of ours, for the falls that the sensor did not see.
 */
const FASTER_TIMES = 4;
/** Where no fall was seen: a slow one. */
const USUAL_FALL_PER_S = 0.02;
const FALL_OVER_S = 3.5;
const LEAST_FALL = 0.2;
/** A hold rises no faster than it has: by less than so many times its slope, and this much a second. */
const HOLD_TIMES = 8;
const HOLD_PER_S = 0.02;
const HOLD_SLOPE_S = 60;
/** Once it is under way: its beginning is not told to the second. */
const HOLD_BEGINS_S = 60;

export interface Filled {
  /** When it began. */
  readonly sinceS: number;
  /** From there, and the lowest shortly before. */
  readonly footPa: number;
  readonly lowestPa: number;
  /** Faster than any leak could. */
  readonly fast: boolean;
}

/** What it came from. */
export interface Before {
  /** Since when it has been held, or null where it is pumped. */
  readonly heldSinceS: number | null;
  /** Quickest fall of ln P in the pull-down, 1/s. */
  readonly fallPerS: number;
}

/**
 * @param index last reading before
 * @param nowS first moment after
 * @param topPa at least so high was it then
 */
export function filledBy(
  trace: Trace,
  index: number,
  { nowS, topPa }: { readonly nowS: number; readonly topPa: number },
  before: Before,
): Filled {
  const perSFrom = (i: number): number =>
    (topPa - trace.pressurePa(i)) / Math.max(nowS - trace.timeS(i), 0.5);
  let steepest = 0;
  let lowestPa = Infinity;
  let earliest = index;
  for (let i = index; i >= 0 && trace.timeS(i) >= nowS - FOOT_WITHIN_S; i -= 1) {
    lowestPa = Math.min(lowestPa, trace.pressurePa(i));
    steepest = Math.max(steepest, perSFrom(i));
    if (perSFrom(i) >= STEEP_SHARE * steepest) earliest = i;
  }
  let foot = index;
  while (foot > earliest && trace.log(foot) > trace.log(earliest) + FOOT_SHARE) foot -= 1;
  const sinceS = trace.timeS(foot);
  const footPa = trace.pressurePa(foot);
  const perS = Math.max(topPa - footPa, 0) / Math.max(nowS - sinceS, 0.5);
  const { heldSinceS } = before;
  const most =
    heldSinceS !== null && sinceS > heldSinceS + HOLD_BEGINS_S
      ? footPa * (HOLD_TIMES * Math.max(slopeBefore(trace, foot), 0) + HOLD_PER_S)
      : mostPaPerS(footPa, before.fallPerS);
  return { sinceS, footPa, lowestPa, fast: perS > most };
}

/** A hold, or a pump that stands still behind its valve, starts to rise by less, Pa/s. */
export function mostPaPerS(footPa: number, fallPerS: number): number {
  return FASTER_TIMES * footPa * Math.max(fallPerS, USUAL_FALL_PER_S);
}

/** How fast ln P has fallen over the last seconds, 1/s: only what stands clear of any noise counts. */
export function fallPerS(trace: Trace, index: number): number {
  const nowS = trace.timeS(index);
  let from = index - 1;
  while (from > 0 && nowS - trace.timeS(from) < FALL_OVER_S) from -= 1;
  if (from < 0) return 0;
  const fall = trace.log(from) - trace.log(index);
  return fall < LEAST_FALL ? 0 : fall / (nowS - trace.timeS(from));
}

function slopeBefore(trace: Trace, foot: number): number {
  const from = trace.firstAfter(trace.timeS(foot) - HOLD_SLOPE_S);
  return foot - from < 3 ? 0 : trace.line(from, foot + 1).perS;
}
