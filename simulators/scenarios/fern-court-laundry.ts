/** The compressor's oil is still full of refrigerant. */
import { THERMAL_SENSOR } from '../physics/sensor.ts';
import type { ReservoirSetup } from '../physics/section-setup.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

/**
 * What oil holds of refrigerant leaves it the more slowly the deeper it lies. After recovery and a
 * first nitrogen purge a gram or so is left: invented.
 */
const IN_THE_OIL: ReservoirSetup[] = [
  { gas: 'refrigerant', capacityMolPerPa: 1e-6, exchangeS: 250, startPa: 5000 },
  { gas: 'refrigerant', capacityMolPerPa: 1.2e-6, exchangeS: 1500, startPa: 4000 },
  { gas: 'refrigerant', capacityMolPerPa: 1.5e-6, exchangeS: 6000, startPa: 3000 },
];

const rig = (holding: boolean) =>
  splitRig({
    system: {
      volumeM3: 6e-3,
      startPa: { air: 96_500, water: 400, refrigerant: holding ? 4000 : 0 },
      reservoirs: [...ordinaryWater(400), ...(holding ? IN_THE_OIL : [])],
    },
    hoseM: 1.2,
  });

export const FERN_COURT_LAUNDRY: Scenario = {
  card: {
    name: 'fern-court-laundry',
    place: 'Laundry at Fern Court, pressing room',
    situation:
      'A fan motor and the service valves were changed on a system nine years old, after recovery and a ' +
      'nitrogen purge. One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; a thermal sensor sits on ' +
      'the other port.',
  },
  cause: 'refrigerant',
  truth:
    'No leak and no water to speak of: the compressor’s oil still held most of a gram of ' +
    'refrigerant and gave it off ever more slowly.',
  tells:
    'No plateau, but a tail that fell more and more slowly; and after valving off a fast rise that bent ' +
    'and went on bending, without becoming a straight line. Nitrogen breaks and time help; warming the ' +
    'crankcase only by the maker’s rule. What comes out is refrigerant: recover first, and if it burns, ' +
    'exhaust outdoors and keep what can spark away. A thermal sensor shows its pressure too high.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: THERMAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
