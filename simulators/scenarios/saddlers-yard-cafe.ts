/** Refrigerant comes in from the charged outdoor unit, past its service valve. */
import { paFromMicron } from '../../protocol/units.ts';
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { leak } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { JOINTS_TIGHTENED } from './usual-script.ts';

const VOLUME_M3 = 3.4e-3;
/** Steady rise with the valve closed. */
const RISE_PA_PER_S = paFromMicron(22) / 60;
/** Saturation pressure of R-32 near 20 °C: 1.47 MPa, from memory. */
const CHARGE_PA = 1.47e6;

const rig = (passing: boolean) =>
  splitRig({
    system: {
      volumeM3: VOLUME_M3,
      startPa: { air: 100_900, water: 430, refrigerant: passing ? 60 : 0 },
      inflows: passing
        ? [
            leak('seat of the gas service valve', RISE_PA_PER_S * VOLUME_M3, {
              from: 'charge',
              chargePa: CHARGE_PA,
              endsWhenTightened: false,
            }),
          ]
        : [],
      reservoirs: ordinaryWater(430, 0.8),
    },
    hoseM: 1.2,
  });

export const SADDLERS_YARD_CAFE: Scenario = {
  card: {
    name: 'saddlers-yard-cafe',
    place: 'Café in Saddler’s Yard, gallery',
    situation:
      'A wall unit and 5 m of line set on a new outdoor unit. One 3/8-inch hose of 1.2 m, cores ' +
      'out, a 4 cfm pump; the sensor sits on the other port. The helper holds twice, and in ' +
      'between goes over every joint with nitrogen and a torque wrench.',
  },
  cause: 'charged_side',
  truth:
    'The line set is tight. The new outdoor unit’s gas service valve did not seal, and its charge crept ' +
    'into the part under vacuum: 22 micron a minute.',
  tells:
    'Both holds rose in the same straight line: a leak by the curve, but one that no tightening changed. A ' +
    'leak from outside cannot come from a joint that holds in the nitrogen test; what is left is the ' +
    'charged side. Look for refrigerant, not for air, in what is drawn off; close the service valve ' +
    'firmly on its seat, and if it still passes, recover the charge and have the valve changed by ' +
    'those licensed to. Flammable refrigerant then also comes out of the pump: exhaust outdoors.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: JOINTS_TIGHTENED,
};
