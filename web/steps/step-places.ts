/** Which steps belong to which place of the day's work. */
import { CLOSING_STEPS, type StepId } from '../../protocol/ticked-steps.ts';
import type { CautionPlace } from '../words/say-caution.ts';

export const PLACES = ['nitrogen', 'hook_up', 'pull_down', 'rise', 'closing_up'] as const;

export const STEPS_AT: Readonly<Record<CautionPlace, readonly StepId[]>> = {
  nitrogen: ['nitrogen_test'],
  hook_up: ['hook_up', 'pump_check'],
  pull_down: ['ballast_open', 'pull_down', 'ballast_close', 'target', 'depth'],
  rise: ['valve_off', 'pump_off', 'hold', 'verdict', 'oil_change'],
  closing_up: CLOSING_STEPS,
};
