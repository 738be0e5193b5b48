/** Leaking: a flare that was not tightened fully. */
import { paFromMicron } from '../../protocol/units.ts';
import { FAIR_WEATHER } from '../physics/surroundings.ts';
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import {
  heldWater,
  hoseDuct,
  hoseSection,
  ISOLATION,
  leak,
  section,
  vanePump,
} from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const VOLUME_M3 = 4.8e-3;
/** Steady rise with the valve closed. */
const RISE_PA_PER_S = paFromMicron(25) / 60;

/** @param leaking with the flare a quarter of a turn short, or tight */
function rig(leaking: boolean): RigSetup {
  return {
    surroundings: FAIR_WEATHER,
    sections: [
      section({
        name: 'system',
        volumeM3: VOLUME_M3,
        startPa: { air: 100_500, water: 600, refrigerant: 0 },
        inflows: leaking ? [leak('flare at the indoor unit', RISE_PA_PER_S * VOLUME_M3)] : [],
        reservoirs: [
          heldWater(8e-6, 20, 600),
          heldWater(1.8e-5, 240, 600),
          heldWater(1e-6, 3000, 150),
        ],
      }),
      hoseSection(1.2),
    ],
    ducts: [hoseDuct(1.2)],
    valves: [{ name: ISOLATION, opening: 1 }],
    pump: vanePump(1, 4),
    nitrogen: { section: 0, conductanceM3PerS: 2e-4 },
  };
}

export const WEIR_STREET_ARCHIVE: Scenario = {
  card: {
    name: 'weir-street-archive',
    place: 'Town archive in Weir Street, reading room',
    situation:
      'A wall unit was moved to another room and connected again with 8 m of line set. ' +
      'One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  cause: 'leak_and_moisture',
  truth:
    'A leak of 25 micron a minute: a flare nut at the indoor unit was a quarter of a turn short. ' +
    'What rose faster at first was water from the walls.',
  tells:
    'In the hold the first minutes rose fast and bent over, as water does; then the curve became a ' +
    'straight line and stayed one. A straight line is a leak. Vent with nitrogen, find it with soap ' +
    'solution under pressure, and begin again.',
  rig: rig(true),
  sensorSection: 0,
  inOrder: { rig: rig(false), sensorSection: 0 },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
