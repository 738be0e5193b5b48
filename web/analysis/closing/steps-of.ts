/**
 * The steps of a job as a list: what is done and how that is known, what is now, what is to come. It goes on by
 * itself with the curve and the marks; what no curve shows is said by hand.
 */
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import { CLOSING_STEPS, STEP_IDS, type StepId } from '../../../protocol/ticked-steps.ts';
import type { Conclusions, ToldHold } from '../conclusions.ts';
import { lastNitrogenTest } from '../nitrogen/nitrogen-test.ts';

/** A mark, and a tick, are both by hand. */
type StepKnownBy = 'curve' | 'hand' | 'entry';

export interface JobStep {
  readonly id: StepId;
  /** `skipped`: the work has gone on past it, and nothing says that it was done. */
  readonly state: 'done' | 'now' | 'to_come' | 'skipped' | 'not_needed';
  /** Null where nothing says so. */
  readonly knownBy: StepKnownBy | null;
  /** Data time, s; null where it has none. */
  readonly atS: number | null;
}

export interface StepFacts {
  /** Null before there is a reading. */
  readonly conclusions: Conclusions | null;
  /** Of the job. */
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  /** Whether water was boiled off, by the curve; null: nobody knows. */
  readonly hasBoiledOff: boolean | null;
  /** What the next thing to do belongs to; null: nothing is to be done. */
  readonly now: StepId | null;
}

type Sign = Pick<JobStep, 'knownBy' | 'atS'> & { readonly state: 'done' | 'not_needed' };

/** Which mark says by hand that a step was done. */
export const MARK_OF_STEP: Readonly<Partial<Record<StepId, MarkKind>>> = {
  ballast_open: 'ballast_opened',
  pull_down: 'pump_on',
  ballast_close: 'ballast_closed',
  valve_off: 'isolated',
  pump_off: 'pump_off',
  oil_change: 'oil_changed',
  cores_in: 'cores_in',
  sensor_isolated: 'sensor_isolated',
  valves_opened: 'charge_released',
};

export function stepsOf(facts: StepFacts): JobStep[] {
  const signs = STEP_IDS.map((id) => signOf(id, facts));
  const nowAt = facts.now === null ? -1 : STEP_IDS.indexOf(facts.now);
  const reached = nowAt >= 0 ? nowAt : signs.findLastIndex((sign) => sign?.state === 'done');
  return STEP_IDS.map((id, at): JobStep => {
    const sign = signs[at] ?? null;
    if (at === nowAt) return { id, state: 'now', knownBy: null, atS: null };
    if (sign !== null) return { id, ...sign };
    return { id, state: at < reached ? 'skipped' : 'to_come', knownBy: null, atS: null };
  });
}

function signOf(id: StepId, facts: StepFacts): Sign | null {
  return tickOf(id, facts) ?? markedAs(id, facts) ?? enteredAs(id, facts) ?? seenAs(id, facts);
}

/** What somebody says of it goes before what is read out of the curve, but for what the curve alone can tell. */
function tickOf(id: StepId, { conclusions, sheet }: StepFacts): Sign | null {
  const tick = sheet.tickedSteps.find(({ step }) => step === id);
  if (tick === undefined || TOLD_BY_CURVE.includes(id)) return null;
  // Of this hold: what was closed up after an earlier one has been opened again.
  const isClosing = CLOSING_STEPS.some((step) => step === id);
  if (isClosing && tick.atS < (presentHold(conclusions)?.fromS ?? Infinity)) return null;
  return { state: tick.state, knownBy: 'hand', atS: tick.atS };
}

const TOLD_BY_CURVE: readonly StepId[] = ['target', 'depth', 'hold', 'verdict'];

/** A pump that is stopped, a core that goes back in: of this evacuation, and not of one before it. */
function markedAs(id: StepId, { conclusions, marks }: StepFacts): Sign | null {
  const kind = MARK_OF_STEP[id];
  if (kind === undefined) return null;
  const fromS = AFTER_VALVE_OFF.includes(id)
    ? (presentHold(conclusions)?.fromS ?? Infinity)
    : id === 'valve_off'
      ? (conclusions?.pullDownS ?? 0)
      : 0;
  const mark = marks.findLast((one) => one.kind === kind && one.elapsedS >= fromS);
  return mark === undefined ? null : { state: 'done', knownBy: 'hand', atS: mark.elapsedS };
}

const AFTER_VALVE_OFF: readonly StepId[] = [
  'pump_off',
  'cores_in',
  'sensor_isolated',
  'valves_opened',
];

/** The hold that the latest pull-down led to. */
function presentHold(conclusions: Conclusions | null): ToldHold | null {
  const hold = conclusions?.holds.at(-1);
  return hold !== undefined && hold.fromS >= (conclusions?.pullDownS ?? 0) ? hold : null;
}

function seenAs(id: StepId, facts: StepFacts): Sign | null {
  const { conclusions, sheet, hasBoiledOff } = facts;
  if (conclusions === null) return null;
  const { pullDownS, targetReachedS, isolationDepthReachedS, rise } = conclusions;
  const hold = presentHold(conclusions);
  const seen = (atS: number | null): Sign | null =>
    atS === null ? null : { state: 'done', knownBy: 'curve', atS };
  switch (id) {
    case 'hook_up':
      return seen(pullDownS);
    case 'pull_down':
      return seen(hold === null ? targetReachedS : pullDownS);
    case 'target':
      return seen(targetReachedS);
    case 'depth':
      return seen(isolationDepthReachedS);
    case 'valve_off':
      return seen(hold?.fromS ?? null);
    case 'hold': {
      const isOver = rise !== null && rise.heldS >= sheet.holdS;
      return seen(isOver ? rise.sinceS + sheet.holdS : null);
    }
    case 'verdict': {
      const isOut = rise !== null && rise.verdict !== 'undecided';
      return isOut ? { state: 'done', knownBy: 'curve', atS: null } : null;
    }
    case 'oil_change':
      return hold !== null && hasBoiledOff === false
        ? { state: 'not_needed', knownBy: 'curve', atS: null }
        : null;
    case 'nitrogen_test':
    case 'pump_check':
    case 'ballast_open':
    case 'ballast_close':
    case 'pump_off':
    case 'cores_in':
    case 'tool_closed':
    case 'sensor_isolated':
    case 'valves_opened':
    case 'pressure_positive':
    case 'tool_off':
    case 'power_on':
      return null;
  }
}

/** What stands on the job sheet says it. */
function enteredAs(id: StepId, { sheet }: StepFacts): Sign | null {
  const isEntered =
    (id === 'hook_up' && sheet.sensorSees !== 'unknown') ||
    (id === 'nitrogen_test' && hasHeldNitrogen(sheet));
  if (isEntered) return { state: 'done', knownBy: 'entry', atS: null };
  const isNotNeeded =
    // Cores that were never taken out need not go back in.
    (id === 'cores_in' && sheet.core === 'in') ||
    ((id === 'ballast_open' || id === 'ballast_close') && sheet.pumpBallast === 'no');
  return isNotNeeded ? { state: 'not_needed', knownBy: 'entry', atS: null } : null;
}

/** As it was read last; one that leaks, or is undecided, is not done. */
function hasHeldNitrogen(sheet: Sheet): boolean {
  const tested = lastNitrogenTest(sheet.nitrogenReadings, sheet.nitrogenGauge, sheet);
  return tested?.verdict === 'holds';
}
