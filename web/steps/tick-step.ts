/** Says by hand of a step that it was done, or is not needed: for those of which no mark says it. */
import type { Recording } from '../../protocol/recording.ts';
import type { StepId, TickedStep } from '../../protocol/ticked-steps.ts';
import { enterNow, entryTimeS } from '../sheet/enter-now.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';

/** @param state null: it is taken back */
export function tickStep(
  step: StepId,
  state: TickedStep['state'] | null,
  followed: FollowedRecording,
  recording: Recording,
): void {
  const others = followed.sheet.peek().tickedSteps.filter((one) => one.step !== step);
  const atS = entryTimeS(followed, recording);
  const tickedSteps = state === null ? others : [...others, { step, state, atS }];
  void enterNow(followed, recording, { tickedSteps });
}

/** The curve or a mark tells of the others. */
export const TICKABLE: readonly StepId[] = [
  'nitrogen_test',
  'hook_up',
  'pump_check',
  'tool_closed',
  'pressure_positive',
  'tool_off',
  'power_on',
];
/** Not every rig or job has these. */
export const MAY_BE_NEEDLESS: readonly StepId[] = [
  'nitrogen_test',
  'pump_check',
  'ballast_open',
  'ballast_close',
  'oil_change',
  'cores_in',
  'tool_closed',
  'sensor_isolated',
  'tool_off',
];
