/** The gas ballast was never closed. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { BALLAST_FORGOTTEN } from './usual-script.ts';

/** @param forgotten or (what it should have been) as if the ballast had been closed from the start */
const rig = (forgotten: boolean) =>
  splitRig({
    system: {
      volumeM3: 4.7e-3,
      startPa: { air: 100_600, water: 460, refrigerant: 0 },
      reservoirs: ordinaryWater(460),
    },
    hoseM: 1.2,
    pump: forgotten ? {} : { ballastPa: 0, ballastShare: 0 },
  });

export const BRIDGE_END_PHARMACY: Scenario = {
  card: {
    name: 'bridge-end-pharmacy',
    place: 'Pharmacy at Bridge End, store room',
    situation:
      'A wall unit and 9 m of line set, connected this morning. One 3/8-inch hose of 1.2 m, cores ' +
      'out, a 4 cfm pump lent by a colleague; the sensor sits on the other port.',
  },
  cause: 'ballast_open',
  truth:
    'The system is tight and dry. The pump’s gas ballast stood open all the time; with it open ' +
    'this pump comes to about 1500 micron.',
  tells:
    'It came down fast to between 1000 and 2000 micron and stood there, flat; after valving off ' +
    'it hardly rose, so that the system was not the matter. The ballast belongs open at the ' +
    'beginning, while much vapour comes, and closed for the depth. Once it is closed, the target ' +
    'is a matter of minutes.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: BALLAST_FORGOTTEN,
};
