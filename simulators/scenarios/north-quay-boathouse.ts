/** The pump falls silent before the depth is reached, and lets air back. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { PUMP_LOOKED_AFTER } from './usual-script.ts';

/** What is left in it when the job begins. */
const BATTERY_S = 7.5 * 60;
/** Its check valve does not shut well. */
const BACK_PA_M3_PER_S = 0.02;

const rig = (empty: boolean) =>
  splitRig({
    system: {
      volumeM3: 4.6e-3,
      startPa: { air: 101_000, water: 480, refrigerant: 0 },
      reservoirs: ordinaryWater(480),
    },
    hoseM: 1.2,
    pump: { batteryS: empty ? BATTERY_S : null, stoppedInflowPaM3PerS: BACK_PA_M3_PER_S },
  });

export const NORTH_QUAY_BOATHOUSE: Scenario = {
  card: {
    name: 'north-quay-boathouse',
    place: 'Boathouse at North Quay, club room',
    situation:
      'A wall unit and 7 m of line set. One 3/8-inch hose of 1.2 m, cores out, a cordless 4 cfm ' +
      'pump that stands in the yard; the sensor sits on the other port.',
  },
  cause: 'battery',
  truth:
    'The system is tight and dry. The pump’s battery was empty after seven and a half minutes, and its ' +
    'check valve let air back through the standing pump.',
  tells:
    'In the midst of the pull-down the curve turned from one second to the next and rose in a straight ' +
    'line, with the valve open. A leak that begins at such a moment is no leak: look at the pump. Valve ' +
    'off first, then change the battery, let the pump run up, and only then open again. With a full ' +
    'battery it came down at once.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: PUMP_LOOKED_AFTER,
};
