/**
 * What follows from the facts: stage, forecast and verdict, as data without wording.
 *
 * Conclusions are never stored; they are drawn again from readings, marks and sheet by `judge`, and
 * come out the same live, in a rehearsal, in a report and on the command line. All times are data
 * time in seconds, all pressures absolute in Pa, all intervals 90 % unless they say otherwise.
 */
import type { Verdict } from '../../protocol/verdicts.ts';

/** An estimate and the interval that holds the truth nine times out of ten. */
export interface Estimate {
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

/** A place on a predicted curve: its middle and its 80 % band (p10 to p90). */
export interface CurvePoint {
  readonly elapsedS: number;
  readonly lowPa: number;
  readonly midPa: number;
  readonly highPa: number;
}

/**
 * `waiting`: no pull-down has begun. `at_depth`: held below the isolation depth, pump still on.
 * `rise`: valved off. `pump_stopped`: not valved off, and nothing pumps. `nitrogen_break`: filled with
 * nitrogen. `vented`: open to the air, or filled with something else, after a pull-down.
 */
export type StageName =
  'waiting' | 'pull_down' | 'at_depth' | 'rise' | 'pump_stopped' | 'nitrogen_break' | 'vented';

export interface Stage {
  readonly name: StageName;
  /** The moment it began. */
  readonly sinceS: number;
  /** A mark by hand (or of a rehearsal or file) overrides what the curve says. */
  readonly recognisedBy: 'curve' | 'mark';
  /** What the curve fits as well, the likelier first; nothing where a mark says so. */
  readonly alternatives: readonly StageName[];
}

/** Remaining time as quantiles; `p90S` is null where it is unbounded. */
export interface Remaining {
  readonly p10S: number;
  readonly p50S: number;
  readonly p90S: number | null;
}

type ForecastOutcome = 'reached' | 'reaches' | 'levels_off' | 'too_early';

/** Why the curve is as it is. A boil-off plateau is a reason and not a fate: it ends. */
export type Cause =
  | 'gas' // free gas is pumped out: the curve is on its way
  | 'boil_off' // water boils and cools itself
  | 'slow_tail' // walls and oil give off gas
  | 'ballast' // the gas ballast is still open
  | 'floor' // the curve heads for a floor: pump, oil, or a leak that balances the pump
  | 'wet_oil' // the floor sinks while vapour leaves the pump's oil
  | 'rising' // pump off, leak or valve: the pressure rises under what should be a pull-down
  | 'sensor'; // over range, stuck, or silent

/** Causes, the most likely first; `weight` adds up to 1 over the list. */
export interface RankedCause {
  readonly cause: Cause;
  readonly weight: number;
}

export interface Forecast {
  /** The forecast uses what happened since then: pump on, or the last change of the rig. */
  readonly sinceS: number;
  readonly outcome: ForecastOutcome;
  /**
   * Time until the target is reached, if it is; null where there is nothing to go by. While the sensor
   * is out of range it is no more than that what has lasted lasts as long again, as likely as not.
   */
  readonly remaining: Remaining | null;
  /** The same for the depth to isolate at. */
  readonly remainingToIsolation: Remaining | null;
  /** Where the curve is heading, or null while that is unknown. */
  readonly floorPa: Estimate | null;
  readonly causes: readonly RankedCause[];
  /** During boil-off: the temperature at which water boils at the present pressure, °C. */
  readonly boilingPointC: number | null;
  /** The curve to come, from now on; empty while it is too early. */
  readonly curve: readonly CurvePoint[];
}

/** Why there is no verdict, or why it is not a pass. */
export type Reservation =
  | 'too_early' // the data do not tell the causes apart yet
  | 'between_limits' // an interval straddles its limit
  | 'falling' // pressure falls: a valve passes to the pump, or the sensor sees the pump's side
  | 'evening_out' // the pressure fell at first, while it evened out, and has not been seen enough since
  | 'steepening' // the rise grows steeper: something still hides part of an inflow
  | 'temperature' // it has changed so much that it may hide a leak
  | 'temperature_unknown' // no thermometer tells, and a usual change of it may hide a leak
  | 'isolation_unsure' // by its curve, the pump may still be pulling
  | 'not_water_alone' // stands above the vapour pressure of water at the metal's temperature
  | 'moisture_besides' // a leak it is; how much of the rise is moisture the data do not tell
  | 'ice_possible' // the metal may be so cold that ice would hide
  | 'not_the_system' // the sensor sees a stub, a section or the pump's side
  | 'other_sensor' // another one that watches the system does not bear a pass out
  | 'step' // a step in the curve: trapped air let go; the hold starts anew
  | 'gap'; // too few readings

/** A jump within a hold: gas that a ball valve or a pocket had trapped, let go at once. */
interface RiseStep {
  readonly atS: number;
  readonly sizePa: number;
}

export interface Rise {
  /** Isolation. */
  readonly sinceS: number;
  /** Length of the hold so far. */
  readonly heldS: number;
  readonly verdict: Verdict;
  readonly reservations: readonly Reservation[];
  /** Steady inflow, Pa/s. */
  readonly leakPaPerS: Estimate;
  /** Earlier holds of the same system, pumped on since, whose readings count for its inflow as well. */
  readonly earlierHolds: number;
  /** What is still to come or has come from moisture (or gas from oil) by the end of the hold, Pa. */
  readonly moisturePa: Estimate;
  /** Since isolation: when boil-off gives way to the steady rise; null where there is no such moment. */
  readonly changeoverS: number | null;
  /** Where the pressure will stand `atS` after isolation. */
  readonly endOfHold: Estimate & { readonly atS: number };
  /** Whether the end of the hold keeps the pass rule: null while the interval straddles the limit. */
  readonly keepsRule: boolean | null;
  /**
   * How much longer until there can be a verdict; null where it is there, or where no wait helps: to
   * pump on and hold again then tells more. A leak rises as fast as before, all else more slowly.
   */
  readonly moreS: number | null;
  /** By how much the pressure changed, up or down, while it evened out after isolation, Pa. */
  readonly evenedPa: number | null;
  /** Jumps that started the hold anew, in order of time. */
  readonly steps: readonly RiseStep[];
  /** Standard deviation of a reading about the curve, as the hold itself shows it, Pa. */
  readonly noisePa: number | null;
  /** Air inflow Q = V·L, Pa·m³/s, where the sensor sees the system and its volume is known. */
  readonly leakRatePaM3PerS: Estimate | null;
  /** The fitted curve, from where it goes along with the readings to the end of the hold. */
  readonly curve: readonly CurvePoint[];
}

/** A hold as the stages tell it. */
export interface ToldHold {
  readonly fromS: number;
  /** Reopened, filled, or the present. */
  readonly toS: number;
  readonly recognisedBy: 'curve' | 'mark';
  /** False where it may have been pumped all the same: see the stage's alternatives. */
  readonly isolationSure: boolean;
  /** How long the pump had pulled since the hold before, or since the beginning, s. */
  readonly pumpedS: number;
  /**
   * True for a repeat hold: since the one before, the system has been pumped and nothing else. Its leak
   * is then the same, and what it gives off is less.
   */
  readonly repeats: boolean;
}

/** What earlier holds of the same system tell of the next; probabilities of what they leave open. */
export interface EarlierTold {
  /** That there is a steady inflow that counts as a leak. */
  readonly leaks: number;
  /** That the steady inflow alone is more than is allowed. */
  readonly leaksTooMuch: number;
  /** That the pressure would rise by too much again, had pumping taken nothing away since. */
  readonly risesTooMuch: number;
  /** Steady inflow, Pa/s. */
  readonly leakPaPerS: Estimate;
  /** Where the latest of them stood, or would have stood, at the end of its hold. */
  readonly endPa: Estimate;
}

/** What bounds the chance that a hold passes, from above or from below. */
export type HoldReason =
  | { readonly kind: 'not_the_system' } // the sensor sees a stub, a section or the pump's side
  | { readonly kind: 'pressure_unknown' } // over range, or silent
  /** It stands above this, and a hold only rises. */
  | { readonly kind: 'stands_too_high'; readonly limitPa: number }
  /** Liquid water, of this likelihood: it goes on boiling once valved off. */
  | { readonly kind: 'water_boils'; readonly weight: number }
  /** No more than this can come in during the hold. */
  | { readonly kind: 'little_inflow'; readonly mostRisePa: number }
  /** An earlier hold, with nothing but pumping since. */
  | ({ readonly kind: 'earlier_hold' } & EarlierTold)
  | { readonly kind: 'changed_since_hold' } // joints tightened, sections opened: it counts no more
  | { readonly kind: 'curve_silent' }; // the pull-down alone can't tell

/** How likely a hold passes if the system is valved off now: between two figures, from 0 to 1. */
export interface HoldChance {
  readonly low: number;
  readonly high: number;
  readonly reasons: readonly HoldReason[];
}

export interface Conclusions {
  /** The moment to which they apply. */
  readonly nowS: number;
  readonly stage: Stage;
  /** Beginning of the latest pull-down, also while at depth and in the rise; null before the first. */
  readonly pullDownS: number | null;
  /** A robust present pressure, or null while the sensor knows none. */
  readonly pressurePa: number | null;
  /** Relative change of pressure per second (d ln P / dt), or null while unknown. */
  readonly relativeRatePerS: number | null;
  /** When the target was first reached and held (never from a single spike). */
  readonly targetReachedS: number | null;
  /** The same for the depth to isolate at. */
  readonly isolationDepthReachedS: number | null;
  /** All holds so far, the present one last. */
  readonly holds: readonly ToldHold[];
  /** During the pull-down and at depth. */
  readonly forecast: Forecast | null;
  /** The same: what valving off now would bring. */
  readonly holdChance: HoldChance | null;
  /** After isolation. */
  readonly rise: Rise | null;
}
