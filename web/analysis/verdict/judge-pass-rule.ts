/**
 * A hold judged by a pass rule, beside the physics and never instead of it: a rule knows neither the
 * system's volume nor what makes the pressure rise.
 */
import type { PassRule } from '../../../protocol/pass-rules.ts';
import type { Estimate } from '../conclusions.ts';
import type { HoldSeen } from '../rise/hold-seen.ts';

type ConditionKind = 'final_pressure' | 'end_limit' | 'allowed_rise';

/**
 * `within_gauge_error`: the reading keeps or breaks the rule by less than noise and the gauge's own
 * error. `not_seen`: no readings at the moment that counts.
 */
export type RuleOutcome =
  'passes' | 'fails' | 'within_gauge_error' | 'not_held_long_enough' | 'not_seen';

interface Condition {
  readonly kind: ConditionKind;
  readonly limitPa: number;
  /** As shown, noise in the interval; null where it was not seen, or is still to come. */
  readonly shownPa: Estimate | null;
  readonly outcome: RuleOutcome;
}

export interface RuleJudgement {
  readonly outcome: RuleOutcome;
  /** In the order of the work. */
  readonly conditions: readonly Condition[];
  /** Error that was reckoned with, as a part of the reading, and whether anybody stated it. */
  readonly gaugeErrorShare: number;
  readonly gaugeErrorAssumed: boolean;
}

/** Where nobody stated it: thermal gauges of the trade, in air. Common practice, no source. */
const USUAL_GAUGE_ERROR_SHARE = 0.1;

/**
 * @param gaugeErrorShare as a part of the reading, or null where unknown: then a usual one
 * @returns `passes` only where every condition is kept; null where the rule asks for nothing
 */
export function judgePassRule(
  rule: PassRule,
  seen: HoldSeen,
  gaugeErrorShare: number | null,
): RuleJudgement | null {
  const error = gaugeErrorShare ?? USUAL_GAUGE_ERROR_SHARE;
  const { finalPa, endLimitPa, allowedRisePa } = rule;
  const conditions: Condition[] = [];
  if (finalPa !== null) {
    conditions.push(reached('final_pressure', finalPa, seen.startPa, error));
  }
  if (endLimitPa !== null) {
    conditions.push(held('end_limit', endLimitPa, rule, seen, error, (pressurePa) => pressurePa));
  }
  if (allowedRisePa !== null) {
    conditions.push(
      held('allowed_rise', allowedRisePa, rule, seen, error, (pressurePa) =>
        seen.startPa === null ? null : difference(pressurePa, seen.startPa),
      ),
    );
  }
  if (conditions.length === 0) return null;
  return {
    outcome: worst(conditions),
    conditions,
    gaugeErrorShare: error,
    gaugeErrorAssumed: gaugeErrorShare === null,
  };
}

/** In the order in which they decide: whatever is broken is broken for good. */
const WORST_FIRST: readonly RuleOutcome[] = [
  'fails',
  'not_held_long_enough',
  'not_seen',
  'within_gauge_error',
  'passes',
];

function worst(conditions: readonly Condition[]): RuleOutcome {
  return (
    WORST_FIRST.find((outcome) => conditions.some((one) => one.outcome === outcome)) ?? 'not_seen'
  );
}

function reached(
  kind: ConditionKind,
  limitPa: number,
  shownPa: Estimate | null,
  error: number,
): Condition {
  const outcome = shownPa === null ? 'not_seen' : compared(shownPa, limitPa, error);
  return { kind, limitPa, shownPa, outcome };
}

/** At the end of the hold; before it, only a limit that is already broken counts. */
function held(
  kind: ConditionKind,
  limitPa: number,
  rule: PassRule,
  seen: HoldSeen,
  error: number,
  quantity: (pressurePa: Estimate) => Estimate | null,
): Condition {
  // A rule that does not say how long is judged as it stands.
  const endS = rule.holdS ?? seen.heldS;
  const isOver = seen.heldS >= endS;
  const pressurePa = seen.pressureAt(isOver ? endS : seen.heldS);
  const shownPa = pressurePa === null ? null : quantity(pressurePa);
  if (shownPa === null) {
    return { kind, limitPa, shownPa, outcome: isOver ? 'not_seen' : 'not_held_long_enough' };
  }
  const outcome = compared(shownPa, limitPa, error);
  if (isOver || outcome === 'fails') return { kind, limitPa, shownPa, outcome };
  return { kind, limitPa, shownPa, outcome: 'not_held_long_enough' };
}

/**
 * A gauge that shows s stands for a pressure from s/(1 + e) to s/(1 − e). A rise is the difference of two
 * readings of one gauge, and errs by the same part.
 */
function compared(shownPa: Estimate, limitPa: number, error: number): RuleOutcome {
  if (shownPa.high / (1 - error) <= limitPa) return 'passes';
  return shownPa.low / (1 + error) > limitPa ? 'fails' : 'within_gauge_error';
}

/** Of two readings whose noise is independent. */
function difference(later: Estimate, earlier: Estimate): Estimate {
  const estimate = later.estimate - earlier.estimate;
  const down = Math.hypot(later.estimate - later.low, earlier.high - earlier.estimate);
  const up = Math.hypot(later.high - later.estimate, earlier.estimate - earlier.low);
  return { estimate, low: estimate - down, high: estimate + up };
}

/** The largest steady inflow that a rule still passes. */
export interface LetsThrough {
  readonly leakPaPerS: number;
  /** The same into this volume, as air; null where the volume is unknown. */
  readonly airPaM3PerS: number | null;
}

/**
 * With nothing else that gives off gas: moisture takes up some of what is allowed. A rule passes the same
 * rise whatever the volume, and so a hundred times the leak in 100 L as in 1 L.
 * @param startPa where the hold starts: the lower, the more leak an end limit lets through
 * @returns null where the rule names no hold, or no limit on it, or the start is above it
 */
export function letsThrough(
  { holdS, endLimitPa, allowedRisePa }: PassRule,
  startPa: number,
  volumeM3: number | null,
): LetsThrough | null {
  if (holdS === null || (endLimitPa === null && allowedRisePa === null)) return null;
  const risePa = Math.min(allowedRisePa ?? Infinity, (endLimitPa ?? Infinity) - startPa);
  if (!(risePa > 0)) return null;
  const leakPaPerS = risePa / holdS;
  return { leakPaPerS, airPaM3PerS: volumeM3 === null ? null : leakPaPerS * volumeM3 };
}
