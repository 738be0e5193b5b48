/** Valve cores left in, and thin hoses: nothing is wrong but the way to the pump. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { CORE_M, HOSE_1_4_M, HOSE_3_8_M } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const rig = (narrow: boolean) =>
  splitRig({
    system: {
      volumeM3: 4.3e-3,
      startPa: { air: 100_900, water: 420, refrigerant: 0 },
      reservoirs: ordinaryWater(),
    },
    hoseM: 0.9,
    hose: narrow ? { diameterM: HOSE_1_4_M, coreDiameterM: CORE_M } : { diameterM: HOSE_3_8_M },
  });

export const CHAPEL_HILL_SURGERY: Scenario = {
  card: {
    name: 'chapel-hill-surgery',
    place: 'Surgery on Chapel Hill, treatment room',
    situation:
      'A wall unit and 7 m of line set, connected today by a colleague, who has set up hose, pump and ' +
      'sensor as well and gone on to the next job. The pump says 4 cfm.',
  },
  cause: 'narrow_way',
  truth:
    'The system is tight and dry and the pump is good. The valve core was left in, and the hose was one ' +
    'of 1/4 inch: at low pressure hardly any of the pump’s speed came through.',
  tells:
    'It went down more slowly from the very beginning, and below 1000 micron ever more slowly ' +
    'still, but it stood still nowhere, and the hold was good. The thinner the gas, the more a ' +
    'narrow way counts. Take the cores out with a core tool, and use a short hose of 3/8 inch or ' +
    'more. Never open a core tool to the air while the system is under vacuum.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
