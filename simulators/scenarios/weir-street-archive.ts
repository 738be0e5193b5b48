/** Leaking: a flare that was not tightened fully. */
import { paFromMicron } from '../../protocol/units.ts';
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { fourCfmPump, hoseDuct, hoseSection } from './hose-and-pump.ts';
import { USUAL_SCRIPT } from './usual-script.ts';
import type { Scenario } from './scenario.ts';

const VOLUME_M3 = 4.8e-3;
/** Steady rise with the valve closed. */
const RISE_PA_PER_S = paFromMicron(25) / 60;

export const WEIR_STREET_ARCHIVE: Scenario = {
  card: {
    name: 'weir-street-archive',
    place: 'Town archive in Weir Street, reading room',
    situation:
      'A wall unit was moved to another room and connected again with 8 m of line set. ' +
      'One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  truth:
    'A leak of 25 micron a minute: a flare nut at the indoor unit was a quarter of a turn short. ' +
    'What rose faster at first was water from the walls.',
  rig: {
    gasTemperatureK: 293.15,
    sections: [
      {
        name: 'system',
        volumeM3: VOLUME_M3,
        airPa: 100_500,
        waterPa: 600,
        metalTemperatureK: 293.15,
        leakPaM3PerS: RISE_PA_PER_S * VOLUME_M3,
        reservoirs: [
          { capacityMolPerPa: 8e-6, exchangeS: 20, startPa: 600 },
          { capacityMolPerPa: 1.8e-5, exchangeS: 240, startPa: 600 },
          { capacityMolPerPa: 1e-6, exchangeS: 3000, startPa: 150 },
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
