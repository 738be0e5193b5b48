/** In order, and large: long lines, many branches, a compressor's oil. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import { FAIR_WEATHER } from '../physics/surroundings.ts';
import {
  heldWater,
  HOSE_1_2_M,
  hoseDuct,
  hoseSection,
  ISOLATION,
  line,
  section,
  vanePump,
} from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { PUMP_SIDE, SYSTEM } from './split-rig.ts';
import { LARGE_SCRIPT } from './usual-script.ts';

const HOSES = { diameterM: HOSE_1_2_M, count: 2 };
const MAIN = 2;
const FAR_BRANCH = 3;
const NEAR_BRANCH = 4;
const START_PA = { air: 100_800, water: 450, refrigerant: 0 };

const RIG: RigSetup = {
  surroundings: FAIR_WEATHER,
  sections: [
    section({
      name: 'outdoor unit',
      volumeM3: 28e-3,
      startPa: START_PA,
      reservoirs: [
        heldWater(1.6e-4, 40, 450),
        heldWater(2e-5, 200, 450),
        heldWater(2e-5, 2500, 110),
      ],
    }),
    hoseSection(2, HOSES),
    section({
      name: 'main lines',
      volumeM3: 13e-3,
      startPa: START_PA,
      reservoirs: [heldWater(7e-5, 30, 450), heldWater(8e-6, 200, 450)],
    }),
    section({
      name: 'far branch',
      volumeM3: 9e-3,
      startPa: START_PA,
      reservoirs: [heldWater(6e-5, 30, 450), heldWater(7e-6, 200, 450), heldWater(3e-6, 3000, 80)],
    }),
    section({
      name: 'near branch',
      volumeM3: 7e-3,
      startPa: START_PA,
      reservoirs: [heldWater(5e-5, 30, 450), heldWater(6e-6, 200, 450)],
    }),
  ],
  ducts: [
    hoseDuct(2, HOSES),
    line([SYSTEM, MAIN], 25e-3, 18),
    line([MAIN, FAR_BRANCH], 14e-3, 16),
    line([MAIN, NEAR_BRANCH], 14e-3, 7),
  ],
  valves: [{ name: ISOLATION, opening: 1 }],
  pump: vanePump(PUMP_SIDE, 10),
  nitrogen: { section: SYSTEM, conductanceM3PerS: 4e-4 },
};

export const GUILDHALL_ANNEX: Scenario = {
  card: {
    name: 'guildhall-annex',
    place: 'Annex of the guildhall, two upper floors',
    situation:
      'A roof-top outdoor unit with nine ceiling units on 70 m of pipe, all new. Two 1/2-inch hoses of ' +
      '2 m side by side, cores out, a 10 cfm pump; the sensor sits at the farthest ceiling unit.',
  },
  cause: 'in_order',
  truth:
    'Tight and dry, and large: 57 litres of volume, with walls and oil in proportion. It takes its time, ' +
    'and then holds.',
  tells:
    'It came down slowly, but without a halt near the triple point and without standing still. ' +
    'After valving off the reading at the far end even fell a little: the long lines came into ' +
    'balance with the parts nearer the pump. Then it held. Slow alone is no fault: hold the curve ' +
    'against what such a volume needs, and judge a large system once it is in balance.',
  rig: RIG,
  sensorSection: FAR_BRANCH,
  inOrder: { rig: RIG, sensorSection: FAR_BRANCH },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: LARGE_SCRIPT,
};
