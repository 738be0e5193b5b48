/** Wet: rain ran into the line set on the building site. */
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

/** @param wet with the rain, or (what it should have been) with no more than every system holds */
function rig(wet: boolean): RigSetup {
  return {
    surroundings: { ...FAIR_WEATHER, temperatureK: 295.15 },
    sections: [
      section({
        name: 'system',
        volumeM3: 5.4e-3,
        startPa: { air: 99_000, water: wet ? 2000 : 1000, refrigerant: 0 },
        metalTemperatureK: 295.15,
        reservoirs: wet
          ? [heldWater(1e-5, 20, 2000), heldWater(2.6e-5, 500, 2000), heldWater(1e-6, 3000, 600)]
          : [heldWater(1e-5, 20, 500), heldWater(2e-6, 1000, 150)],
        puddle: wet
          ? { waterKg: 4e-3, areaM2: 6e-3, evaporationShare: 0.02, metalConductanceWPerK: 0.4 }
          : null,
      }),
      hoseSection(0.9),
    ],
    ducts: [hoseDuct(0.9)],
    valves: [{ name: ISOLATION, opening: 1 }],
    pump: vanePump(1, 4),
    nitrogen: { section: 0, conductanceM3PerS: 2e-4 },
  };
}

export const LINDENS_DENTAL_PRACTICE: Scenario = {
  card: {
    name: 'lindens-dental-practice',
    place: 'Dental practice at The Lindens, waiting room',
    situation:
      'A ceiling cassette on 11 m of line set, piped last week and connected today. ' +
      'One 3/8-inch hose of 0.9 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  cause: 'moisture',
  truth:
    'Moisture and no leak: water stood in a low bend of the line set. It boiled off, but the walls ' +
    'and the oil were still giving it back when the valve was closed.',
  tells:
    'The curve stopped falling near the triple point and stayed for minutes, until the water was ' +
    'gone. In the hold it rose quickly at first and then levelled off. A nitrogen break and another ' +
    'pull-down take out what the walls still hold.',
  rig: rig(true),
  sensorSection: 0,
  inOrder: { rig: rig(false), sensorSection: 0 },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
