/** What keeps a rise from being a pass, however small it is. */
import type { Sheet } from '../../../protocol/sheet.ts';
import { waterVapourPressurePa } from '../../../protocol/water.ts';
import type { Reservation } from '../conclusions.ts';
import type { RiseFit } from '../rise/rise-fit.ts';
import { shareOf } from '../rise/rise-kinds.ts';
import type { HiddenByTemperature } from '../rise/rise-warming.ts';
import { mayBecomePaPerS, steepens, type Steepening } from '../rise/steepening.ts';
import type { Bar } from './verdict-bars.ts';

/** What was seen of the hold beside the fit. */
export interface Seen {
  readonly heldS: number;
  /** Since the pressure no longer falls because it evens out, s. */
  readonly sinceEvenS: number;
  /** Null where too little has been seen. */
  readonly steepening: Steepening | null;
  readonly hiddenByTemperature: HiddenByTemperature;
  readonly isolationSure: boolean;
  readonly step: boolean;
  readonly falling: boolean;
  readonly gap: boolean;
  /** A robust present pressure, or null. */
  readonly pressurePa: number | null;
}

/** A pass that is withheld. */
export interface Withheld {
  readonly reason: Reservation;
  /** How much longer the hold should go on, s; undefined: until its end; null: that would not help. */
  readonly moreS?: number | null;
}

/** Nobody passes a system on less than a quarter of its hold, however clear the curve. */
const LEAST_SHARE_TO_PASS = 1 / 4;
/** What fell at first may even out for longer than that shows: half of a hold at rest, then. */
const LEAST_SHARE_AFTER_FALL = 1 / 2;
/** A slope that has grown by less than this part of the limit is none that grows. */
const LEAST_GROWN_SHARE = 0.1;
/** Beyond the hold's end what grows steeper, or swings with the temperature, is seen for so much longer. */
const SEEN_LONGER_SHARE = 0.5;
/**
 * Ice hides while its vapour pressure is not well above the limit: it then lifts the pressure by
 * too little to show. Factor three: three quarters of the way to balance within the hold would
 * still be over twice the limit.
 */
const ICE_MARGIN = 3;

/** Whether inflow and rise are small enough for a pass. */
export function mayPass(
  bar: Bar,
  fit: RiseFit,
  sheet: Sheet,
  keepsRule: boolean | null,
  { gap, heldS }: Seen,
): boolean {
  const limit = sheet.leakLimitPaPerS;
  // Nothing is passed because part of what goes on rising is believed to be no leak.
  const { straight } = fit.posterior;
  return (
    shareOf(fit.posterior.kinds, 'tight_dry') > bar.tight &&
    straight.leakAbove(limit) < bar.leakAboveLimit &&
    straight.leakPaPerS.high < bar.shareOfLimit * limit &&
    (keepsRule ?? bar.ruleMayBreak) &&
    !gap &&
    heldS >= sheet.holdS * LEAST_SHARE_TO_PASS
  );
}

/** @returns null: nothing speaks against it */
export function passWithheld(bar: Bar, fit: RiseFit, sheet: Sheet, seen: Seen): Withheld | null {
  const limit = sheet.leakLimitPaPerS;
  const isOver = seen.heldS >= sheet.holdS;
  if (!seen.isolationSure) return { reason: 'isolation_unsure' };
  const restS = seen.sinceEvenS < seen.heldS ? sheet.holdS * LEAST_SHARE_AFTER_FALL : 0;
  if (seen.sinceEvenS < restS) {
    return { reason: 'evening_out', moreS: Math.round(restS - seen.sinceEvenS) };
  }
  const longerS = Math.round(Math.max(sheet.holdS - seen.heldS, SEEN_LONGER_SHARE * seen.heldS));
  // What a rise that grows steeper may come to opens the interval of its inflow.
  if (fit.leakPaPerS.high > limit || isSteepening(bar, seen.steepening, limit)) {
    return { reason: 'steepening', moreS: longerS };
  }
  const { paPerS: hiddenPaPerS, isMeasured } = seen.hiddenByTemperature;
  if (fit.leakPaPerS.high + bar.timesWater * hiddenPaPerS > limit) {
    return { reason: isMeasured ? 'temperature' : 'temperature_unknown', moreS: longerS };
  }
  if (iceMayHide(sheet)) return { reason: 'ice_possible', moreS: null };
  if (bar.unseenGrowth && mayGrowUnseen(seen.steepening, limit, isOver)) {
    return { reason: isOver ? 'between_limits' : 'too_early' };
  }
  return null;
}

/** Were it to go on growing it might come near the limit: what it hides may be a leak. */
function isSteepening(bar: Bar, steepening: Steepening | null, limitPaPerS: number): boolean {
  if (steepening === null) return false;
  return (
    steepening.grownPaPerS > LEAST_GROWN_SHARE * limitPaPerS &&
    steepens(steepening, bar.steepeningSigmas) &&
    mayBecomePaPerS(steepening) > bar.shareOfLimit * limitPaPerS
  );
}

/**
 * Whether a growth that these readings can't tell from none could come to a leak above the limit: with a coarse
 * display, or in the first minutes, all that can be said is that none was seen. Of a few readings typed in by hand
 * nothing can be told of it: a whole hold has to do.
 */
function mayGrowUnseen(
  steepening: Steepening | null,
  limitPaPerS: number,
  isOver: boolean,
): boolean {
  return steepening === null ? !isOver : mayBecomePaPerS(steepening) > limitPaPerS;
}

function iceMayHide({ coldestTemperatureC, endLimitPa }: Sheet): boolean {
  return (
    coldestTemperatureC !== null &&
    waterVapourPressurePa(coldestTemperatureC) < ICE_MARGIN * endLimitPa
  );
}
