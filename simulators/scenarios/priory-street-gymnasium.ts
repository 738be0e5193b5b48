/** Flooded, and got dry by breaking with nitrogen twice. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { heldWater } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { TRIPLE_SCRIPT } from './usual-script.ts';

const rig = (wet: boolean) =>
  splitRig({
    system: {
      volumeM3: 5.8e-3,
      startPa: { air: 99_000, water: wet ? 2000 : 500, refrigerant: 0 },
      reservoirs: wet
        ? [heldWater(1.5e-5, 20, 2000), heldWater(2e-5, 300, 2000), heldWater(1e-6, 3000, 400)]
        : ordinaryWater(500),
      puddle: wet
        ? { waterKg: 8e-3, areaM2: 9e-3, evaporationShare: 0.02, metalConductanceWPerK: 0.6 }
        : null,
    },
    hoseM: 0.9,
    cfm: 6,
    surroundings: { temperatureK: 295.15 },
  });

export const PRIORY_STREET_GYMNASIUM: Scenario = {
  card: {
    name: 'priory-street-gymnasium',
    place: 'Gymnasium in Priory Street, changing rooms',
    situation:
      'Two cassettes on 14 m of line set, connected today. One 3/8-inch hose of 0.9 m, cores out, ' +
      'a 6 cfm pump; the sensor sits on the other port. The helper breaks with nitrogen twice on ' +
      'the way down.',
  },
  cause: 'moisture',
  truth:
    'No leak, and eight grams of water at the start. Three pull-downs with nitrogen in between took it ' +
    'out; at the end the system is dry.',
  tells:
    'The first pull-down stayed near the triple point and below until the water was gone, the ' +
    'second and the third went straight through, and the hold at the end levelled off within the ' +
    'limit. Each nitrogen break thins what vapour is left. Nitrogen only through a regulator and ' +
    'with a relief device, and never let out into a closed room; vent before the pump is opened ' +
    'to it.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: TRIPLE_SCRIPT,
};
