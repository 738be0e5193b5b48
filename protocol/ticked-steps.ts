/** What a technician says by hand of the steps of a job: done, or not needed here. */
import { z } from 'zod';

/** In the order of the work. An id once recorded is never taken out. */
export const STEP_IDS = [
  'nitrogen_test',
  'hook_up',
  'pump_check',
  'ballast_open',
  'pull_down',
  'ballast_close',
  'target',
  'depth',
  'valve_off',
  'pump_off',
  'hold',
  'verdict',
  'oil_change',
  'cores_in',
  'tool_closed',
  'sensor_isolated',
  'valves_opened',
  'pressure_positive',
  'tool_off',
  'power_on',
] as const;
export type StepId = (typeof STEP_IDS)[number];

/** What is done once a hold has passed, in this order. */
export const CLOSING_STEPS = [
  'cores_in',
  'tool_closed',
  'sensor_isolated',
  'valves_opened',
  'pressure_positive',
  'tool_off',
  'power_on',
] as const satisfies readonly StepId[];
export type ClosingStep = (typeof CLOSING_STEPS)[number];

/** One for each step at most; it is entered anew as a whole with each change. */
export const LONGEST_TICKED = STEP_IDS.length;

export const tickedStepSchema = z.strictObject({
  step: z.enum(STEP_IDS),
  state: z.enum(['done', 'not_needed']),
  /** Data time at which it was said, s. */
  atS: z.number().min(0),
});
export type TickedStep = z.infer<typeof tickedStepSchema>;

export const ONCE_EACH = { message: 'the same step stands there twice: say each once' };
export function areOnceEach(ticked: readonly TickedStep[]): boolean {
  return new Set(ticked.map(({ step }) => step)).size === ticked.length;
}
