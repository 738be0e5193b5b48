/** In order, and high up. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { atmosphereAtHeightPa } from '../../protocol/standard-atmosphere.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const ATMOSPHERE_PA = atmosphereAtHeightPa(2400);
const WATER_PA = 380;

const RIG = splitRig({
  system: {
    volumeM3: 3.9e-3,
    startPa: { air: ATMOSPHERE_PA - WATER_PA, water: WATER_PA, refrigerant: 0 },
    reservoirs: ordinaryWater(WATER_PA),
  },
  hoseM: 1.2,
  atPump: { startPa: { air: ATMOSPHERE_PA - WATER_PA, water: WATER_PA, refrigerant: 0 } },
  surroundings: { temperatureK: 285.15, atmospherePa: ATMOSPHERE_PA, humidityPa: 500 },
});

export const SUMMIT_ROAD_REFUGE: Scenario = {
  card: {
    name: 'summit-road-refuge',
    place: 'Mountain refuge on Summit Road, 2400 m, dining room',
    situation:
      'A wall unit and 5 m of line set, connected today. The hose of the van and a cordless 4 cfm ' +
      'pump, cores out; the sensor sits on the other port.',
  },
  cause: 'in_order',
  truth: 'Tight and dry. Three quarters of the usual atmosphere change nothing about that.',
  tells:
    'The beginning was a little quicker, since there was less air to draw; below that the curve was as ' +
    'at sea level, and it held. A vacuum sensor reads absolute pressure: target and limits are the same ' +
    'at any height. A gauge that shows pressure against the atmosphere, or a boiling point read by it, ' +
    'would have to be corrected.',
  rig: RIG,
  sensorSection: SYSTEM,
  inOrder: { rig: RIG, sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
