/** The next step in words: the thing to do, and why or how where that is not plain. */
import type { ClosingStep } from '../../protocol/ticked-steps.ts';
import { sayRoughDuration } from './say-duration.ts';
import { saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

export type NextStep =
  | { readonly kind: 'start_pump' }
  /** `known` false: nobody said whether this pump has a ballast and whether it is open. */
  | { readonly kind: 'close_ballast'; readonly known: boolean }
  | { readonly kind: 'let_it_boil' }
  | { readonly kind: 'keep_pumping'; readonly isolateAtPa: number }
  | { readonly kind: 'find_cause' }
  | { readonly kind: 'look_for_inflow' }
  | { readonly kind: 'look_at_sensor' }
  /** `hasLeaked`: the last hold showed a leak, and nothing was done about it. */
  | { readonly kind: 'valve_off'; readonly isolateAtPa: number; readonly hasLeaked: boolean }
  | { readonly kind: 'wait_for_verdict'; readonly moreS: number }
  | { readonly kind: 'finish_hold'; readonly leftS: number }
  | { readonly kind: 'hold_again' }
  | { readonly kind: 'sensor_to_system' }
  | { readonly kind: 'check_valve' }
  | { readonly kind: 'warm_it' }
  | { readonly kind: 'nitrogen_break' }
  | { readonly kind: 'stub_test' }
  | { readonly kind: 'stub_test_then_break' }
  /** `step`: of closing up; null: all of it is done. `passed`: the last hold was tight and dry. */
  | { readonly kind: 'close_up'; readonly step: ClosingStep | null; readonly passed: boolean }
  | { readonly kind: 'pump_again' }
  | { readonly kind: 'valve_off_at_once' };

export interface NextStepWords {
  readonly todo: string;
  readonly how: string;
}

const CLOSING = {
  cores_in: 'coresIn',
  tool_closed: 'toolClosed',
  sensor_isolated: 'sensorIsolated',
  valves_opened: 'valvesOpened',
  pressure_positive: 'pressurePositive',
  tool_off: 'toolOff',
  power_on: 'powerOn',
} as const satisfies Readonly<Record<ClosingStep, string>>;

export function sayNextStep(step: NextStep, speech: Speech): NextStepWords {
  const words = speech.wording.next;
  switch (step.kind) {
    case 'start_pump':
      return words.startPump;
    case 'close_ballast':
      return step.known ? words.closeBallast : words.closeBallastIfAny;
    case 'let_it_boil':
      return words.letItBoil;
    case 'keep_pumping': {
      const { todo, how } = words.keepPumping;
      return { todo, how: how({ depth: saySetting(step.isolateAtPa, speech) }) };
    }
    case 'find_cause':
      return words.findCause;
    case 'look_for_inflow':
      return words.lookForInflow;
    case 'look_at_sensor':
      return words.lookAtSensor;
    case 'valve_off': {
      if (step.hasLeaked) return words.findLeak;
      const { todo, how } = words.valveOff;
      return { todo, how: how({ depth: saySetting(step.isolateAtPa, speech) }) };
    }
    case 'wait_for_verdict': {
      const { todo, how } = words.waitForVerdict;
      return { todo: todo({ more: sayRoughDuration(step.moreS) }), how };
    }
    case 'finish_hold': {
      const { todo, how } = words.finishHold;
      return { todo: todo({ left: sayRoughDuration(step.leftS) }), how };
    }
    case 'hold_again':
      return words.holdAgain;
    case 'sensor_to_system':
      return words.sensorToSystem;
    case 'check_valve':
      return words.checkValve;
    case 'warm_it':
      return words.warmIt;
    case 'nitrogen_break':
      return words.nitrogenBreak;
    case 'stub_test':
      return words.stubTest;
    case 'stub_test_then_break':
      return words.stubTestThenBreak;
    case 'close_up':
      if (step.step === null) return step.passed ? words.closedUp : words.closedWithoutPass;
      return words[CLOSING[step.step]];
    case 'pump_again':
      return words.pumpAgain;
    case 'valve_off_at_once':
      return words.valveOffAtOnce;
  }
}
