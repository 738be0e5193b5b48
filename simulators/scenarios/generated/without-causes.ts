/** The same job in order. */
import type { RehearsalCause } from '../../../protocol/api.ts';
import { callCause } from './call-cause.ts';
import { NO_FAULTS, type Faults } from './faults.ts';
import type { Job } from './job.ts';

/** What is taken away with each cause. */
const TAKEN_AWAY: Readonly<Record<RehearsalCause, readonly (keyof Faults)[]>> = {
  in_order: [],
  moisture: ['wetness', 'heldWater', 'freeWater'],
  leak: ['systemLeakPaPerS'],
  leak_and_moisture: ['systemLeakPaPerS', 'wetness', 'heldWater', 'freeWater'],
  gear_leak: ['hoseLeakPa', 'stubLeakPaPerS'],
  charged_side: ['chargePaPerS'],
  refrigerant: ['heldRefrigerant'],
  pump_or_oil: ['foulPa'],
  ballast_open: ['ballastForgotten'],
  narrow_way: ['narrow'],
  sensor_place: ['sensorAtPump'],
  part_shut_off: ['farShut'],
  battery: ['batteryS'],
  radio: ['silences'],
};

/**
 * Cause after cause is taken away until none is left to be called; what is below its limit stays.
 * @param cause what the job as it is has been called
 */
export function withoutCauses(job: Job, faults: Faults, cause: RehearsalCause): Faults {
  let left = faults;
  let called = cause;
  while (called !== 'in_order') {
    const gone = Object.fromEntries(TAKEN_AWAY[called].map((field) => [field, NO_FAULTS[field]]));
    left = { ...left, ...gone };
    const next = callCause(job, left);
    // What is below its limit can add up with what every system has.
    if (next === called) return NO_FAULTS;
    called = next;
  }
  return left;
}
