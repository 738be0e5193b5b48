/** Wet: rain ran into the line set on the building site. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { fourCfmPump, hoseDuct, hoseSection } from './hose-and-pump.ts';
import { USUAL_SCRIPT } from './usual-script.ts';
import type { Scenario } from './scenario.ts';

export const LINDENS_DENTAL_PRACTICE: Scenario = {
  card: {
    name: 'lindens-dental-practice',
    place: 'Dental practice at The Lindens, waiting room',
    situation:
      'A ceiling cassette on 11 m of line set, piped last week and connected today. ' +
      'One 3/8-inch hose of 0.9 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  truth:
    'Moisture and no leak: water stood in a low bend of the line set. It boiled off, but the walls ' +
    'and the oil were still giving it back when the valve was closed.',
  rig: {
    gasTemperatureK: 295.15,
    sections: [
      {
        name: 'system',
        volumeM3: 5.4e-3,
        airPa: 99_000,
        waterPa: 2000,
        metalTemperatureK: 295.15,
        leakPaM3PerS: 0,
        reservoirs: [
          { capacityMolPerPa: 1e-5, exchangeS: 20, startPa: 2000 },
          { capacityMolPerPa: 2.4e-5, exchangeS: 420, startPa: 2000 },
          { capacityMolPerPa: 1e-6, exchangeS: 3000, startPa: 600 },
        ],
        puddle: {
          waterKg: 4e-3,
          areaM2: 6e-3,
          evaporationShare: 0.02,
          metalConductanceWPerK: 0.4,
        },
      },
      hoseSection(0.9),
    ],
    ducts: [hoseDuct(0.9, [0, 1])],
    pump: fourCfmPump(1),
  },
  sensorSection: 0,
  sensor: TYPICAL_SENSOR,
  ballastOpen: true,
  script: USUAL_SCRIPT,
};
