/** What was said of a trial at one moment, beside what was so: the table's raw material. */
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Conclusions, Estimate } from '../../../web/analysis/conclusions.ts';
import type { RiseClass } from '../../support/second-world/rise-class.ts';
import type { WorldName } from './trials.ts';

interface Of {
  readonly world: WorldName;
  readonly seed: number;
}

type Outcome = 'none' | NonNullable<Conclusions['forecast']>['outcome'];

/** A pull-down cut near a share of its true time to target. */
export interface ForecastLine extends Of {
  readonly what: 'forecast';
  readonly wet: boolean;
  /** Nominal: 0.3, 0.5, 0.7 or 0.9. */
  readonly share: number;
  readonly nowS: number;
  readonly elapsedS: number;
  readonly trueS: number;
  readonly outcome: Outcome;
  readonly p10S: number | null;
  readonly p50S: number | null;
  readonly p90S: number | null;
  readonly floorPa: number | null;
  readonly cause: string | null;
  readonly lastMinuteS: number | null;
  readonly logTimeS: number | null;
}

/** A pull-down that reaches its target, at any moment of it. */
export interface MomentLine extends Of {
  readonly what: 'moment';
  readonly wet: boolean;
  readonly elapsedS: number;
  readonly trueS: number;
  readonly p10S: number | null;
  readonly p50S: number | null;
  readonly p90S: number | null;
  readonly cause: string | null;
}

/** A pull-down that never reaches its target, so many minutes after pump on. */
export interface NeverLine extends Of {
  readonly what: 'never';
  readonly wet: boolean;
  readonly obstacle: string;
  readonly minute: number;
  readonly outcome: Outcome;
}

/** A pull-down judged all along. */
export interface WatchLine extends Of {
  readonly what: 'watch';
  readonly wet: boolean;
  readonly reaches: boolean;
  readonly judged: number;
  /** How often the outcome changed. */
  readonly changes: number;
  /** Judged moments at which it was said to level off. */
  readonly levelsOffS: readonly number[];
}

/** A rise so many minutes after isolation. */
export interface RiseLine extends Of {
  readonly what: 'rise';
  readonly kind: RiseClass;
  /** Nominal. */
  readonly minute: number;
  readonly heldS: number;
  readonly verdict: Verdict | 'none';
  readonly reservations: readonly string[];
  readonly trueLeakPaPerS: number;
  readonly leakPaPerS: Estimate | null;
  readonly moisturePa: Estimate | null;
}

/** Where the end of a hold of ten minutes will stand, said so early. */
export interface EndLine extends Of {
  readonly what: 'end';
  readonly kind: RiseClass;
  readonly atS: number;
  readonly truePa: number;
  readonly saidPa: Estimate | null;
  /** As the sensor would show it without noise and gaps, or as it was read. */
  readonly clean: boolean;
}

/** A rise judged all along. */
export interface FirstLine extends Of {
  readonly what: 'first';
  readonly kind: RiseClass;
  readonly trueLeakPaPerS: number;
  /** First right verdict that no later one contradicts, s since isolation; null: there is none. */
  readonly firstRightS: number | null;
  readonly saidTightS: readonly number[];
}

/** A rig at the end of a hold of a quarter of an hour, and at the end of the next. */
export interface RepeatLine extends Of {
  readonly what: 'repeat';
  readonly trueLeakPaPerS: number;
  readonly kinds: readonly [RiseClass, RiseClass];
  readonly verdicts: readonly [Verdict | 'none', Verdict | 'none'];
  readonly leaksPaPerS: readonly [Estimate | null, Estimate | null];
}

export type Line =
  ForecastLine | MomentLine | NeverLine | WatchLine | RiseLine | EndLine | FirstLine | RepeatLine;
export type LineWithFacts = Line & { readonly facts: Readonly<Record<string, unknown>> };
