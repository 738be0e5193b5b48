/** Tight and dry: a new split system, properly brazed and purged. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { fourCfmPump, hoseDuct, hoseSection } from './hose-and-pump.ts';
import { USUAL_SCRIPT } from './usual-script.ts';
import type { Scenario } from './scenario.ts';

export const QUARRY_ROAD_BAKERY: Scenario = {
  card: {
    name: 'quarry-road-bakery',
    place: 'Bakery in Quarry Road, sales room',
    situation:
      'A wall unit was hung this morning and connected with 6 m of line set to its outdoor unit. ' +
      'One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  truth:
    'Tight and dry. Oil and walls held a few tenths of a gram of water, as they always do; it came into ' +
    'balance soon after the valve was closed, and the rise stopped.',
  rig: {
    gasTemperatureK: 294.15,
    sections: [
      {
        name: 'system',
        volumeM3: 4.2e-3,
        airPa: 101_000,
        waterPa: 420,
        metalTemperatureK: 294.15,
        leakPaM3PerS: 0,
        reservoirs: [
          { capacityMolPerPa: 4.5e-5, exchangeS: 25, startPa: 420 },
          { capacityMolPerPa: 6e-6, exchangeS: 120, startPa: 420 },
          { capacityMolPerPa: 2e-6, exchangeS: 1000, startPa: 150 },
          { capacityMolPerPa: 2e-6, exchangeS: 8000, startPa: 120 },
        ],
        puddle: null,
      },
      hoseSection(1.2),
    ],
    ducts: [hoseDuct(1.2, [0, 1])],
    pump: fourCfmPump(1),
  },
  sensorSection: 0,
  sensor: TYPICAL_SENSOR,
  ballastOpen: true,
  script: USUAL_SCRIPT,
};
