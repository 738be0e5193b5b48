/** To which step of the list the next thing to do belongs: so the list never says anything else. */
import type { StepId } from '../../protocol/ticked-steps.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { NextStep } from '../words/say-next-step.ts';

/** @param next null before there is a reading */
export function nowStep(next: NextStep | null, conclusions: Conclusions | null): StepId | null {
  if (next === null) return 'hook_up';
  switch (next.kind) {
    case 'start_pump':
    case 'pump_again':
      return 'pull_down';
    case 'keep_pumping':
    case 'let_it_boil':
    case 'find_cause':
    case 'look_for_inflow':
    case 'look_at_sensor':
      return (conclusions?.targetReachedS ?? null) === null ? 'pull_down' : 'depth';
    case 'close_ballast':
      return 'ballast_close';
    case 'valve_off':
    case 'valve_off_at_once':
    case 'check_valve':
      return 'valve_off';
    case 'wait_for_verdict':
    case 'finish_hold':
      return 'hold';
    case 'sensor_to_system':
    case 'hold_again':
    case 'warm_it':
    case 'nitrogen_break':
    case 'stub_test':
    case 'stub_test_then_break':
      return 'verdict';
    case 'close_up':
      return next.step;
  }
}
