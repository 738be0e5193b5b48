/**
 * The chance that a hold passes if the system is valved off now: between two figures, with what bounds them.
 *
 * A pull-down shows what the pump takes away, and hardly what would come if it stopped. A learner finds signs
 * of it in the curves of one world that tell next to nothing in another (`oracle-hold.ts` of the accuracy
 * bench). So the figures start at none and all, and only what physics or an earlier hold tells moves them.
 */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { EarlierTold, Forecast, HoldChance, HoldReason } from '../conclusions.ts';
import type { Allowed } from './hold-chance-earlier.ts';

/** What is known at a moment of the pull-down. */
export interface BeforeHold {
  /** Null while the sensor knows none. */
  readonly pressurePa: number | null;
  readonly forecast: Forecast | null;
  /** The most that can flow in once valved off, Pa/s; null where nothing bounds it. */
  readonly mostInflowPaPerS: number | null;
  /** Null where there were no earlier holds, or where they count no more. */
  readonly earlier: EarlierTold | null;
  /** Something was done to the system since the last hold, so that it counts no more. */
  readonly changedSinceHold: boolean;
}

/** Nothing about a hold to come is surer than that. A setting of ours. */
const LEAST = 0.02;
/** What physics says goes by figures that somebody entered, and by one volume at one pressure. */
const SURE_BY_PHYSICS = 0.9;
/** A probability as the fits have it may be off by so much. A setting of ours. */
const FITS_ERR = 0.05;

/** Within this factor of a limit it counts as there: readings scatter about it. A setting of ours. */
const STILL_BELOW = 1.05;

/** A hold passes where it keeps the rule and has no steady inflow that counts as a leak. */
export function holdChance(before: BeforeHold, sheet: Sheet): HoldChance {
  const { pressurePa, forecast, mostInflowPaPerS: mostPaPerS, earlier } = before;
  const reasons: HoldReason[] = [];
  let [low, high] = [0, 1];
  if (sheet.sensorSees !== 'system' && sheet.sensorSees !== 'unknown') {
    return { low, high, reasons: [{ kind: 'not_the_system' }] };
  }
  if (pressurePa === null) return { low, high, reasons: [{ kind: 'pressure_unknown' }] };
  const limitPa = highestStartPa(sheet);
  if (!isBelow(pressurePa, sheet)) {
    high = LEAST;
    reasons.push({ kind: 'stands_too_high', limitPa });
  }
  const boiling = boilingWeight(forecast);
  if (boiling > 0) {
    high = Math.min(high, 1 - boiling);
    reasons.push({ kind: 'water_boils', weight: boiling });
  }
  const allowed = allowedFrom(pressurePa, sheet);
  if (mostPaPerS !== null && mostPaPerS <= allowed.inflowPaPerS) {
    low = SURE_BY_PHYSICS;
    reasons.push({ kind: 'little_inflow', mostRisePa: mostPaPerS * sheet.holdS });
  }
  if (earlier !== null) {
    const { leaksTooMuch, risesTooMuch } = earlier;
    low = Math.max(low, 1 - leaksTooMuch - risesTooMuch - FITS_ERR);
    high = Math.min(high, 1 - leaksTooMuch + FITS_ERR);
    reasons.push({ kind: 'earlier_hold', ...earlier });
  }
  if (before.changedSinceHold) reasons.push({ kind: 'changed_since_hold' });
  if (low === 0 && high === 1 && earlier === null) reasons.push({ kind: 'curve_silent' });
  const top = Math.max(high, LEAST);
  return { low: Math.min(Math.max(low, 0), 1 - LEAST, top), high: top, reasons };
}

/** The rule's final pressure comes before its hold, and a hold ends no lower than it starts. */
function highestStartPa({ targetPa, endLimitPa }: Sheet): number {
  return Math.min(targetPa, endLimitPa);
}

/** Whether a hold may start at this pressure at all. */
export function isBelow(pressurePa: number, sheet: Sheet): boolean {
  return pressurePa <= STILL_BELOW * highestStartPa(sheet);
}

/** What a hold that starts at a pressure may do. */
export function allowedFrom(startPa: number, sheet: Sheet): Allowed {
  const risePa = Math.max(Math.min(sheet.allowedRisePa, sheet.endLimitPa - startPa), 0);
  const inflowPaPerS = Math.min(risePa / sheet.holdS, sheet.leakLimitPaPerS);
  return { startPa, risePa, inflowPaPerS };
}

function boilingWeight(forecast: Forecast | null): number {
  if (forecast === null || forecast.boilingPointC === null) return 0;
  return forecast.causes.find(({ cause }) => cause === 'boil_off')?.weight ?? 0;
}
