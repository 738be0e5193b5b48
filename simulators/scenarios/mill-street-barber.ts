/** A leak so large that pump and leak come to a draw. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { leak } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const VOLUME_M3 = 3.6e-3;
/**
 * At 120 Pa a hose of 0.9 m and this pump draw half a litre a second: so much comes in at 120 Pa · 0.5 L/s.
 * A finger-tight flare.
 */
const INTO_VACUUM_PA_M3_PER_S = 0.06;

const rig = (leaking: boolean) =>
  splitRig({
    system: {
      volumeM3: VOLUME_M3,
      startPa: { air: 101_000, water: 500, refrigerant: 0 },
      inflows: leaking ? [leak('flare at the outdoor unit', INTO_VACUUM_PA_M3_PER_S)] : [],
      reservoirs: ordinaryWater(500),
    },
    hoseM: 0.9,
    surroundings: { temperatureK: 296.15 },
  });

export const MILL_STREET_BARBER: Scenario = {
  card: {
    name: 'mill-street-barber',
    place: 'Barber in Mill Street, back room',
    situation:
      'A wall unit was replaced, the 5 m of line set kept. One 3/8-inch hose of 0.9 m, cores out, ' +
      'a 4 cfm pump; the sensor sits on the other port.',
  },
  cause: 'leak',
  truth:
    'A large leak: a flare nut at the outdoor unit was only finger-tight. The pump drew what came in and ' +
    'no more, so that the pressure stood still above the target.',
  tells:
    'It came down fast and then stood still above the target, flat for as long as one cared to wait: ' +
    'where a leak lets in as much as the pump draws, time changes nothing. After valving off it rose at ' +
    'once and in a straight line, thousands of micron within minutes. Stop there: vent with nitrogen, ' +
    'tighten, pressure-test, and begin again.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
