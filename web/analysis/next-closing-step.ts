/** Which step of closing up comes next: the first of which nothing says that it was done. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { CLOSING_STEPS, type ClosingStep } from '../../protocol/ticked-steps.ts';
import type { Conclusions } from './conclusions.ts';
import { stepsOf } from './steps-of.ts';

/** @returns null: all of it is done, or not needed */
export function nextClosingStep(
  conclusions: Conclusions,
  sheet: Sheet,
  marks: readonly Mark[],
): ClosingStep | null {
  const steps = stepsOf({ conclusions, marks, sheet, hasBoiledOff: null, now: null });
  const isOpen = (id: ClosingStep) => {
    const state = steps.find((step) => step.id === id)?.state;
    return state !== 'done' && state !== 'not_needed';
  };
  // What was passed by is not asked for again: the charge is in, or the tool is off.
  const lastDone = CLOSING_STEPS.findLastIndex((id) => !isOpen(id));
  const after = CLOSING_STEPS.slice(lastDone + 1).find(isOpen);
  const isIrreversible = CLOSING_STEPS.slice(0, lastDone + 1).some((id) => id === 'valves_opened');
  return (isIrreversible ? after : CLOSING_STEPS.find(isOpen)) ?? null;
}
