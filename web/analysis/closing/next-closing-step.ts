/** Which step of closing up comes next: the first of which nothing says that it was done. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import { CLOSING_STEPS, type ClosingStep } from '../../../protocol/ticked-steps.ts';
import type { Conclusions } from '../conclusions.ts';
import { stepsOf } from './steps-of.ts';

/** Nothing is taken off and nothing is switched on before these were really done. */
const NEVER_NEEDLESS: readonly ClosingStep[] = ['valves_opened', 'pressure_positive'];

/** @returns null: all of it is done, or not needed */
export function nextClosingStep(
  conclusions: Conclusions,
  sheet: Sheet,
  marks: readonly Mark[],
): ClosingStep | null {
  const steps = stepsOf({ conclusions, marks, sheet, hasBoiledOff: null, now: null });
  const stateOf = (id: ClosingStep) => steps.find((step) => step.id === id)?.state;
  const isOpen = (id: ClosingStep) => {
    const state = stateOf(id);
    return state !== 'done' && (state !== 'not_needed' || NEVER_NEEDLESS.includes(id));
  };
  // Once the charge is in, what was passed by before it is not asked for again. Nothing else skips a step.
  const isReleased = stateOf('valves_opened') === 'done';
  const firstAt = isReleased ? CLOSING_STEPS.indexOf('valves_opened') : 0;
  return CLOSING_STEPS.slice(firstAt).find(isOpen) ?? null;
}
