/** Lets a rig go on for some time, with steps as long as the accuracy allows. */
import { extrapolatedStep, isPhysical } from './extrapolated-step.ts';
import type { Controls } from './controls.ts';
import { batteryLeftS, isRunning } from './pump.ts';
import type { RigState } from './rig-state.ts';

/**
 * Difference allowed between one full and two half Euler steps, relative. What remains after the
 * extrapolation is of the next order and far smaller.
 */
const TOLERANCE = 5e-4;
const LONGEST_STEP_S = 30;
/** Shorter than the emptying time of a hose at the fastest, V/C ≈ 0.1 L / 1000 L/s. */
const SHORTEST_STEP_S = 1e-5;

/**
 * The rig `durationS` later, the controls held as they are. Pure: the same input gives the same
 * output, whatever was computed before.
 * @throws RangeError for a negative or endless duration
 */
export function advance(state: RigState, durationS: number, controls: Controls): RigState {
  if (!(durationS >= 0 && durationS < Infinity)) {
    throw new RangeError(`a rig can go on for 0 s or more, not for ${durationS} s`);
  }
  const endS = state.elapsedS + durationS;
  let present = state;
  let restS = durationS;
  while (restS > 0) {
    const stepS = Math.min(present.stepS, restS, untilBatteryEndsS(present, controls));
    const tried = extrapolatedStep(present, stepS, controls);
    const good = tried.relativeError <= TOLERANCE && isPhysical(tried.state);
    if (!good && stepS > SHORTEST_STEP_S) {
      present = { ...present, stepS: stepS / 2 };
      continue;
    }
    restS = stepS === restS ? 0 : restS - stepS;
    present = {
      ...(good ? tried.state : tried.fine),
      stepS: nextStepS(present.stepS, stepS, tried.relativeError),
    };
  }
  return { ...present, elapsedS: endS };
}

/** A step never reaches past the moment at which the pump falls silent. */
function untilBatteryEndsS({ setup, pump }: RigState, controls: Controls): number {
  if (!isRunning(setup.pump, pump, controls)) return Infinity;
  return Math.max(batteryLeftS(setup.pump, pump), SHORTEST_STEP_S);
}

/**
 * The error grows with the square of the step: room for twice the length where it is a quarter.
 * A step cut short by the end of the time says nothing against the longer one.
 */
function nextStepS(wishedS: number, usedS: number, relativeError: number): number {
  const grownS = relativeError < TOLERANCE / 5 ? usedS * 2 : usedS;
  return Math.min(LONGEST_STEP_S, Math.max(wishedS, grownS));
}
