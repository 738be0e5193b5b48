/** Water in the cold: it freezes in the outdoor unit and only goes as ice goes. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import { FAIR_WEATHER } from '../physics/surroundings.ts';
import {
  heldWater,
  hoseDuct,
  hoseSection,
  ISOLATION,
  line,
  section,
  vanePump,
} from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { PUMP_SIDE, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

/** −5 °C outside; the rooms are warm. */
const OUTSIDE_K = 268.15;
const INSIDE_K = 288.15;

/** @param wet with the ice, or (what it should have been) with no more than every system holds */
function rig(wet: boolean): RigSetup {
  return {
    surroundings: { ...FAIR_WEATHER, temperatureK: OUTSIDE_K, humidityPa: 300 },
    sections: [
      section({
        name: 'outdoor unit',
        volumeM3: 2.6e-3,
        startPa: { air: 101_000, water: wet ? 400 : 250, refrigerant: 0 },
        metalTemperatureK: OUTSIDE_K,
        reservoirs: [heldWater(3e-5, 30, 250), heldWater(4e-6, 600, 150)],
        // Ice touches metal badly: it takes up about a watt, and so a gram goes in most of an hour.
        puddle: wet
          ? { waterKg: 3e-3, areaM2: 3e-3, evaporationShare: 0.02, metalConductanceWPerK: 0.2 }
          : null,
      }),
      hoseSection(0.9, { metalTemperatureK: OUTSIDE_K }),
      section({
        name: 'line and indoor unit',
        volumeM3: 2.1e-3,
        startPa: { air: 101_000, water: 300, refrigerant: 0 },
        metalTemperatureK: INSIDE_K,
        reservoirs: [heldWater(1.5e-5, 25, 300)],
      }),
    ],
    ducts: [hoseDuct(0.9), line([SYSTEM, 2], 8e-3, 7)],
    valves: [{ name: ISOLATION, opening: 1 }],
    // In the cold the oil is stiff: it takes longer to warm, and is worse until then.
    pump: vanePump(PUMP_SIDE, 4, { coldFactor: 4, warmingS: 900 }),
    nitrogen: { section: SYSTEM, conductanceM3PerS: 2e-4 },
  };
}

export const TOLLGATE_COTTAGE: Scenario = {
  card: {
    name: 'tollgate-cottage',
    place: 'Cottage at the old tollgate, kitchen',
    situation:
      'A wall unit and 7 m of line set; the outdoor unit stands in the yard, where it has −5 °C ' +
      'this morning. One 3/8-inch hose of 0.9 m, cores out, a 4 cfm pump; the sensor sits on the ' +
      'other port.',
  },
  cause: 'moisture',
  truth:
    'Ice and no leak: three grams of water had run into the outdoor unit and froze. Ice at −5 °C ' +
    'has a vapour pressure of 400 Pa (3000 micron); while it is pumped it cools itself further, ' +
    'and cold metal gives it so little heat that most of it was still there when the valve was ' +
    'closed.',
  tells:
    'The curve stood still for forty minutes, far below the triple point of 4600 micron: what ' +
    'boils there is ice, and the lower it stands the colder the ice. After valving off it rose, ' +
    'ever more slowly, towards the vapour pressure of ice at the temperature of the metal. More ' +
    'pumping at this temperature helps little. Break with nitrogen, warm the outdoor unit as its ' +
    'maker allows (never with a flame), and pull down again.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
