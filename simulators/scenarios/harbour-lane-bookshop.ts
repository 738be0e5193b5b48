/** A leak that is barely one: it passes unless somebody looks at the slope. */
import { paFromMicron } from '../../protocol/units.ts';
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { leak } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { JOINTS_TIGHTENED } from './usual-script.ts';

const VOLUME_M3 = 4.5e-3;
/** Steady rise with the valve closed, a little above the usual limit of 5 micron a minute. */
const RISE_PA_PER_S = paFromMicron(8) / 60;

const rig = (leaking: boolean) =>
  splitRig({
    system: {
      volumeM3: VOLUME_M3,
      startPa: { air: 100_800, water: 400, refrigerant: 0 },
      inflows: leaking ? [leak('joint at the outdoor unit', RISE_PA_PER_S * VOLUME_M3)] : [],
      reservoirs: ordinaryWater(),
    },
    hoseM: 1.2,
  });

export const HARBOUR_LANE_BOOKSHOP: Scenario = {
  card: {
    name: 'harbour-lane-bookshop',
    place: 'Bookshop in Harbour Lane, upper floor',
    situation:
      'A wall unit and 7 m of line set, all joints made on site. One 3/8-inch hose of 1.2 m, ' +
      'cores out, a 4 cfm pump; the sensor sits on the other port. The helper holds twice, and in ' +
      'between goes over every joint with nitrogen and a torque wrench.',
  },
  cause: 'leak',
  truth:
    'A leak of 8 micron a minute, little more than the usual limit of 5: one joint at the outdoor unit ' +
    'was not tight enough. It was, after the torque wrench.',
  tells:
    'The first hold ended well below 500 micron and would have passed by its end alone. But once the ' +
    'first minutes were over it rose in a straight line and did not bend; in the second hold that line ' +
    'was gone. So small a leak shows only in a long hold. A nitrogen pressure test, at no more than ' +
    'the maker’s test pressure and with the sensor taken off, finds it faster.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: JOINTS_TIGHTENED,
};
