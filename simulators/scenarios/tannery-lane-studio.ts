/** In order, but the radio loses the sensor now and then, and the sensor starts anew once. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const RIG = splitRig({
  system: {
    volumeM3: 4.9e-3,
    startPa: { air: 100_700, water: 440, refrigerant: 0 },
    reservoirs: ordinaryWater(440, 1.1),
  },
  hoseM: 1.2,
});

export const TANNERY_LANE_STUDIO: Scenario = {
  card: {
    name: 'tannery-lane-studio',
    place: 'Studio in Tannery Lane, behind the courtyard',
    situation:
      'A wall unit and 8 m of line set, connected today. One 3/8-inch hose of 1.2 m, cores out, a ' +
      '4 cfm pump; the sensor sits on the other port.',
  },
  cause: 'radio',
  truth:
    'Tight and dry. The laptop lost the sensor three times for minutes, and once the sensor started ' +
    'anew; what was heard in between is true.',
  tells:
    'The gaps are gaps, and the curve goes on after each where it would have been: nothing about the ' +
    'system can be read from them. Judge by what was heard, before and after. Bring the laptop nearer ' +
    'before the hold, so that its beginning and its end are on record; if one of them is missing, hold ' +
    'again.',
  rig: RIG,
  sensorSection: SYSTEM,
  inOrder: { rig: RIG, sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: {
    silences: [
      { fromS: 150, durationS: 140 },
      { fromS: 700, durationS: 90 },
      { fromS: 1080, durationS: 200 },
    ],
    // Within a silence: its clock begins again while nobody hears.
    restartsAtS: [1150],
    batteryPercent: 22,
    batteryPercentPerHour: 9,
  },
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
