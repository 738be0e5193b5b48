/** Half of the system lies behind a shut expansion valve, and was never pumped down. */
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

const EXPANSION = 'expansion';
const BEHIND = 2;

function rig(open: boolean): RigSetup {
  return {
    surroundings: FAIR_WEATHER,
    sections: [
      section({
        name: 'gas line and indoor units',
        volumeM3: 2.4e-3,
        startPa: { air: 100_900, water: 420, refrigerant: 0 },
        reservoirs: [
          heldWater(2.2e-5, 25, 420),
          heldWater(3e-6, 120, 420),
          heldWater(1e-6, 1000, 150),
        ],
      }),
      hoseSection(1.2),
      section({
        name: 'outdoor coil and liquid line',
        volumeM3: 4.1e-3,
        startPa: { air: 100_900, water: 420, refrigerant: 0 },
        reservoirs: [
          heldWater(3.8e-5, 25, 420),
          heldWater(4e-6, 120, 420),
          heldWater(2e-6, 1000, 150),
        ],
      }),
    ],
    ducts: [hoseDuct(1.2), line([SYSTEM, BEHIND], 5e-3, 0.5, EXPANSION)],
    valves: [
      { name: ISOLATION, opening: 1 },
      { name: EXPANSION, opening: open ? 1 : 0 },
    ],
    pump: vanePump(PUMP_SIDE, 4),
    nitrogen: { section: SYSTEM, conductanceM3PerS: 2e-4 },
  };
}

export const MEADOW_VIEW_NURSERY: Scenario = {
  card: {
    name: 'meadow-view-nursery',
    place: 'Nursery school Meadow View, group room',
    situation:
      'The compressor was replaced; the whole system, some 6.5 litres by the drawings, has been open. ' +
      'One 3/8-inch hose of 1.2 m on the gas side, core out, a 4 cfm pump; the sensor sits on the gas ' +
      'side too.',
  },
  cause: 'part_shut_off',
  truth:
    'An electronic expansion valve stood shut without power. Pump and sensor saw the gas side alone, ' +
    'little more than a third of the volume; the rest was still full of air.',
  tells:
    'It came down in half the time that 6.5 litres on such a hose need. What is too fast is as suspicious ' +
    'as what is too slow: some of the volume is not connected. Open the valve by the maker’s own vacuum or ' +
    'service mode only, never by running the compressor; the reading then jumps up, and the pull-down ' +
    'begins anew.',
  rig: rig(false),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(true), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
