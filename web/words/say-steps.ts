/** The steps of a job in words. */
import { isFlammable, REFRIGERANTS } from '../../protocol/refrigerants.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { StepId, TickedStep } from '../../protocol/ticked-steps.ts';
import type { PumpBattery } from '../analysis/pull-down/pump-battery.ts';
import type { JobStep } from '../analysis/closing/steps-of.ts';
import type { VacuumLoss } from '../analysis/closing/vacuum-loss.ts';
import { sayRoughDuration } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** On the sheet as it was entered: 'Nitrogen test: done; Check the pump by itself: not needed'. */
export function sayTickedSteps(ticked: readonly TickedStep[], { wording }: Speech): string {
  const { names, states } = wording.steps;
  if (ticked.length === 0) return wording.sheet.notEntered;
  return ticked.map(({ step, state }) => `${names[step]}: ${states[state]}`).join('; ');
}

/** 'done, from the curve' */
export function sayStepState({ state, knownBy }: JobStep, { wording }: Speech): string {
  const { states, knownBy: known } = wording.steps;
  return knownBy === null ? states[state] : `${states[state]}, ${known[knownBy]}`;
}

export function sayStepCaution(id: StepId, { wording }: Speech): string {
  const cautions: Partial<Record<StepId, string>> = wording.steps.cautions;
  return cautions[id] ?? '';
}

export function sayPumpBattery({ leftS, needsS }: PumpBattery, { wording }: Speech): string {
  const words = wording.steps.battery;
  const left = sayRoughDuration(Math.max(leftS, 0));
  if (needsS === null) return words.left({ left });
  const needs = sayRoughDuration(needsS);
  return needsS > leftS ? words.short({ left, needs }) : words.enough({ left, needs });
}

/** In which order the valves are opened: the maker's own, else what is usual, as what it is. */
export function sayValveOrder(
  { valveOrder, refrigerant }: Pick<Sheet, 'valveOrder' | 'refrigerant'>,
  { wording }: Speech,
): string[] {
  const words = wording.steps;
  const known = REFRIGERANTS.find(({ number }) => number === refrigerant);
  const order = valveOrder.trim();
  return [
    order === '' ? words.valveOrderUsual : words.valveOrder({ order }),
    ...(known !== undefined && isFlammable(known.safetyClass) ? [words.flammableCharge] : []),
  ];
}

/** @param at when it began, written out */
export function sayLost({ fromPa, toPa }: VacuumLoss, at: string, speech: Speech): string {
  return speech.wording.steps.lost({
    at,
    from: sayPressure(fromPa, speech),
    to: toPa === null ? speech.wording.reading.conditions.over_range : sayPressure(toPa, speech),
  });
}
