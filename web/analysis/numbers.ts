/** The numbers behind a verdict: what readings, conclusions and job sheet tell beyond the verdict itself. */
import { REFRIGERANTS } from '../../protocol/refrigerants.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, Estimate, Rise, ToldHold } from './conclusions.ts';
import {
  type LeakRate,
  leakRateInUnits,
  leakRatePaM3PerS,
  USUAL_TEMPERATURE_C,
} from './flows/leak-rate.ts';
import { moistureShare } from './flows/moisture-share.ts';
import { type RefrigerantLoss, refrigerantLoss } from './flows/refrigerant-loss.ts';
import { type VapourCheck, vapourCheck } from './flows/vapour-check.ts';
import { type PullDownSpan, type WaterFound, waterFound } from './flows/water-found.ts';
import type { History } from './readings/history.ts';
import { holdSeen } from './rise/hold-seen.ts';
import { type EnteredFacts, sheetThen, sheetWhilePumped } from './seen/sheet-then.ts';
import { type HoldByRule, holdByRule } from './verdict/hold-by-rule.ts';
import { seesSystem } from './verdict/verdict.ts';

/** A hold, with what the gauge showed at its beginning and end; null in a silence. */
export interface HoldNumbers extends ToldHold {
  readonly startPa: Estimate | null;
  readonly endPa: Estimate | null;
}

/** Of the hold that is judged. */
export interface RiseNumbers {
  readonly recognisedBy: ToldHold['recognisedBy'];
  readonly startPa: Estimate | null;
  /** What the gauge shows now, or showed last. */
  readonly standsPa: Estimate | null;
  /** False while there are too few readings for any fit: then there is nothing to say of the inflow. */
  readonly isFitted: boolean;
  /** Of the rise until the end of the hold. */
  readonly moistureShare: Estimate | null;
  /** Scatter of a second's reading about the curve. */
  readonly noisePa: number | null;
  readonly byRule: HoldByRule;
  /** Null where the metal's temperature is not known. */
  readonly vapour: VapourCheck | null;
  /** Of what the sensor saw in this hold; null where nobody entered it. */
  readonly volumeM3: number | null;
  /** Null where that volume is not known, or where the sensor sees a part of the system. */
  readonly leakRate: LeakRate | null;
  /** Null where refrigerant or volume are not known, or where there may be no leak at all. */
  readonly refrigerantLoss: RefrigerantLoss | null;
}

export interface Numbers {
  /** All holds so far, the present one last. */
  readonly holds: readonly HoldNumbers[];
  readonly rise: RiseNumbers | null;
  /** Of the latest pull-down; null before the first. */
  readonly water: WaterFound | null;
}

/** Hands mark a reopened valve late, and the pressure falls by then. A setting of ours. */
const MARKED_LATE_S = 15;

/** @param sheet of this sensor: what it sees, and how large that is, is taken from `facts` for each stretch */
export function numbersOf(
  history: History,
  conclusions: Conclusions,
  sheet: Sheet,
  facts: EnteredFacts,
): Numbers {
  const { rise, pullDownS, nowS } = conclusions;
  return {
    holds: conclusions.holds.map((hold) => holdNumbers(history, hold, nowS)),
    rise: rise === null ? null : riseNumbers(history, conclusions, rise, sheet, facts),
    water:
      pullDownS === null
        ? null
        : waterOf(history, { fromS: pullDownS, toS: rise?.sinceS ?? nowS }, sheet, facts),
  };
}

function waterOf(history: History, pulled: PullDownSpan, sheet: Sheet, facts: EnteredFacts) {
  return waterFound(history, pulled, sheetWhilePumped(sheet, facts, pulled));
}

function holdNumbers(history: History, hold: ToldHold, nowS: number): HoldNumbers {
  const early = hold.toS < nowS ? MARKED_LATE_S : 0;
  const seen = holdSeen(history, hold.fromS, Math.max(hold.toS - early, hold.fromS));
  return { ...hold, startPa: seen.startPa, endPa: seen.pressureAt(seen.heldS) };
}

function riseNumbers(
  history: History,
  { holds }: Conclusions,
  rise: Rise,
  sheet: Sheet,
  facts: EnteredFacts,
): RiseNumbers {
  const endS = rise.sinceS + rise.heldS;
  const then = sheetThen(sheet, facts, { fromS: rise.sinceS, toS: endS });
  const seen = holdSeen(history, rise.sinceS, endS);
  const standsPa = seen.pressureAt(seen.heldS);
  const hold = holds.findLast(({ fromS }) => fromS === rise.sinceS) ?? holds.at(-1);
  const { metalTemperatureC: metalC, leakLimitPaPerS } = sheet;
  const isFitted = rise.curve.length > 0;
  const { volumeM3 } = then;
  const isKnown = isFitted && isOfSystem(rise, then);
  const rate = isKnown && volumeM3 !== null ? leakRatePaM3PerS(rise.leakPaPerS, volumeM3) : null;
  return {
    recognisedBy: hold?.recognisedBy ?? 'curve',
    startPa: seen.startPa,
    standsPa,
    isFitted,
    moistureShare: isFitted ? moistureShare(rise) : null,
    noisePa: rise.noisePa,
    byRule: holdByRule(rise, seen, then, hold?.isolationSure ?? true),
    vapour: metalC === null || standsPa === null ? null : vapourCheck(metalC, standsPa.estimate),
    volumeM3,
    leakRate: rate === null ? null : leakRateInUnits(rate, metalC),
    // A rate that may be below what counts as a leak is none to frighten anybody with.
    refrigerantLoss:
      rate === null || rise.leakPaPerS.low < leakLimitPaPerS ? null : lossOf(rate, sheet),
  };
}

/** Of a part the hunt has the figure, and no other place has one. */
function isOfSystem({ reservations }: Rise, then: Sheet): boolean {
  return seesSystem(then) && !reservations.includes('not_the_system');
}

function lossOf(rate: Estimate, sheet: Sheet): RefrigerantLoss | null {
  const refrigerant = REFRIGERANTS.find(({ number }) => number === sheet.refrigerant);
  if (refrigerant === undefined) return null;
  // Its pressure is the one at this temperature.
  return refrigerantLoss(rate, refrigerant, refrigerant.vapourPressurePa, USUAL_TEMPERATURE_C);
}
