/**
 * What a generated job's trouble is to be called: by limits, in an order in which what hides other
 * things comes first. Limits are the job sheet's defaults, or settings of ours, no source.
 */
import type { RehearsalCause } from '../../../protocol/api.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import type { PerGas } from '../../physics/gases.ts';
import type { Faults } from './faults.ts';
import type { Job } from './job.ts';
import { trialOf, type Trial } from './trial.ts';

/** Beside a leak, moisture is called from that much of a rise on. */
const MOIST_BESIDE_LEAK_PA = paFromMicron(100);
/** A floor so near the depth keeps it from being reached in time. */
const FLOOR_SHARE = 0.75;
/** A narrow way is one that makes the pull-down take so many times as long. */
const NARROW_TIMES = 1.5;
/** So much lost in one go, or altogether, s. */
const LONGEST_SILENCE_S = 300;
const MOST_SILENCE_S = 600;

/**
 * The first of these that holds:
 *
 * - `sensor_place`: the sensor sits at the pump.
 * - `ballast_open`: the ballast is never closed.
 * - `pump_or_oil`: ultimate pressure and dirt come to three quarters of the depth at which one valves
 *   off.
 * - `battery`: it runs out before that depth (in the trial, see below).
 * - `gear_leak`: the hose's leak alone holds three quarters of that depth.
 * - `charged_side`, `gear_leak` (the sensor's joint) or a leak of the system, whichever is largest,
 *   if all together come to the limit of 5 micron/min. A leak of the system is `leak_and_moisture`
 *   if water, without the leak, makes more than 100 micron of rise in the hold.
 * - `refrigerant` or `moisture`, whichever rises more, if the hold without leaks rises by more than
 *   the allowed 200 micron.
 * - `narrow_way`: without it the depth is reached in two thirds of the time.
 * - `refrigerant` or `moisture`, whichever there is more of, if the depth is never reached and there
 *   is more of them than of air.
 * - `part_shut_off`: the far part's valve is shut.
 * - `radio`: readings are lost for five minutes in one go, or for ten altogether.
 * - `in_order`
 *
 * The trial is the physical model worked by the helper's rules, without leaks and sensor errors.
 */
export function callCause(job: Job, faults: Faults): RehearsalCause {
  if (faults.sensorAtPump) return 'sensor_place';
  if (faults.ballastForgotten) return 'ballast_open';
  if (job.pump.ultimatePa + faults.foulPa > FLOOR_SHARE * job.depthPa) return 'pump_or_oil';
  const trial = trialOf(job, faults);
  if (trial.batteryRanOut) return 'battery';
  if (faults.hoseLeakPa > FLOOR_SHARE * job.depthPa) return 'gear_leak';
  return (
    calledLeak(faults, trial) ??
    risingGas(trial) ??
    (faults.narrow && isSlow(job, faults, trial) ? 'narrow_way' : null) ??
    stayingGas(trial) ??
    (faults.farShut ? 'part_shut_off' : null) ??
    (isDeaf(faults) ? 'radio' : 'in_order')
  );
}

function calledLeak(faults: Faults, { risePa }: Trial): RehearsalCause | null {
  const { systemLeakPaPerS, stubLeakPaPerS, chargePaPerS } = faults;
  const connectedPaPerS = systemIsSeen(faults) ? systemLeakPaPerS : 0;
  const sum = connectedPaPerS + stubLeakPaPerS + chargePaPerS;
  if (sum < DEFAULT_SHEET.leakLimitPaPerS) return null;
  const largest = Math.max(connectedPaPerS, stubLeakPaPerS, chargePaPerS);
  if (chargePaPerS === largest) return 'charged_side';
  if (stubLeakPaPerS === largest) return 'gear_leak';
  return risePa.water > MOIST_BESIDE_LEAK_PA ? 'leak_and_moisture' : 'leak';
}

/** A leak behind a shut valve shows nowhere. */
function systemIsSeen({ leakFar, farShut }: Faults): boolean {
  return !(leakFar && farShut);
}

function risingGas({ risePa }: Trial): RehearsalCause | null {
  const rises = risePa.water + risePa.refrigerant > DEFAULT_SHEET.allowedRisePa;
  return rises ? vapourCalled(risePa) : null;
}

function stayingGas({ deepAtS, leftPa }: Trial): RehearsalCause | null {
  const stays = deepAtS === null && leftPa.water + leftPa.refrigerant > leftPa.air;
  return stays ? vapourCalled(leftPa) : null;
}

function vapourCalled({ water, refrigerant }: PerGas<number>): RehearsalCause {
  return refrigerant > water ? 'refrigerant' : 'moisture';
}

function isSlow(job: Job, faults: Faults, { deepAtS }: Trial): boolean {
  const wide = trialOf(job, { ...faults, narrow: false });
  return wide.deepAtS !== null && (deepAtS ?? Infinity) > NARROW_TIMES * wide.deepAtS;
}

function isDeaf({ silences }: Faults): boolean {
  const durationsS = silences.map(({ durationS }) => durationS);
  return (
    Math.max(0, ...durationsS) > LONGEST_SILENCE_S ||
    durationsS.reduce((sum, durationS) => sum + durationS, 0) > MOST_SILENCE_S
  );
}
