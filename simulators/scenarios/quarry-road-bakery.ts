/** Tight and dry: a new split system, properly brazed and purged. */
import { FAIR_WEATHER } from '../physics/surroundings.ts';
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import {
  heldWater,
  hoseDuct,
  hoseSection,
  ISOLATION,
  section,
  vanePump,
} from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const RIG: RigSetup = {
  surroundings: { ...FAIR_WEATHER, temperatureK: 294.15 },
  sections: [
    section({
      name: 'system',
      volumeM3: 4.2e-3,
      startPa: { air: 101_000, water: 420, refrigerant: 0 },
      metalTemperatureK: 294.15,
      reservoirs: [
        heldWater(4.5e-5, 25, 420),
        heldWater(6e-6, 120, 420),
        heldWater(2e-6, 1000, 150),
        heldWater(2e-6, 8000, 120),
      ],
    }),
    hoseSection(1.2),
  ],
  ducts: [hoseDuct(1.2)],
  valves: [{ name: ISOLATION, opening: 1 }],
  pump: vanePump(1, 4),
  nitrogen: { section: 0, conductanceM3PerS: 2e-4 },
};

export const QUARRY_ROAD_BAKERY: Scenario = {
  card: {
    name: 'quarry-road-bakery',
    place: 'Bakery in Quarry Road, sales room',
    situation:
      'A wall unit was hung this morning and connected with 6 m of line set to its outdoor unit. ' +
      'One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  cause: 'in_order',
  truth:
    'Tight and dry. Oil and walls held a few tenths of a gram of water, as they always do; it came into ' +
    'balance soon after the valve was closed, and the rise stopped.',
  tells:
    'It came down without a halt near the triple point, and after isolation rose a little and then ' +
    'stood still. Such a system holds.',
  rig: RIG,
  sensorSection: 0,
  inOrder: { rig: RIG, sensorSection: 0 },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
