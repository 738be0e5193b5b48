/** A leak in the liquid line: held with all valves open it leaks, held without that line it does not. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import { heldWater, leak, line, section } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { SECTION_SHUT_OFF } from './usual-script.ts';

const LINE_VALVE = 'liquid line valve';
/** 14 m of 3/8-inch tube with a bore of 7.9 mm, and the shell of its filter-drier. */
const LINE_M3 = 1.1e-3;
const LINE = 2;
/** Into the line; spread over the whole system it is 24 micron a minute. */
const INFLOW_PA_M3_PER_S = 3e-4;

/** @param leaking with a pinhole in a brazed joint at the filter-drier, or without */
function rig(leaking: boolean): RigSetup {
  const split = splitRig({
    system: {
      volumeM3: 4.5e-3,
      startPa: { air: 100_700, water: 480, refrigerant: 0 },
      reservoirs: ordinaryWater(480),
    },
    hoseM: 1.2,
  });
  return {
    ...split,
    sections: [
      ...split.sections,
      section({
        name: 'liquid line',
        volumeM3: LINE_M3,
        startPa: { air: 100_700, water: 480, refrigerant: 0 },
        inflows: leaking
          ? [leak('joint at the filter-drier', INFLOW_PA_M3_PER_S, { endsWhenTightened: false })]
          : [],
        reservoirs: [heldWater(6e-6, 30, 480)],
      }),
    ],
    ducts: [...split.ducts, line([SYSTEM, LINE], 7.9e-3, 0.5, LINE_VALVE)],
    valves: [...split.valves, { name: LINE_VALVE, opening: 1 }],
  };
}

export const ROPEWALK_PRINT_SHOP: Scenario = {
  card: {
    name: 'ropewalk-print-shop',
    place: 'Print shop at the Ropewalk, press hall',
    situation:
      'A ceiling unit and 14 m of line set with a new filter-drier in the liquid line, and a service ' +
      'valve on either side of that line. One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; the ' +
      'sensor sits on the suction port. After the first hold the helper pumps on, shuts the inner ' +
      'valves and holds again.',
  },
  cause: 'leak',
  truth:
    'A pinhole in a brazed joint at the filter-drier, in the liquid line. All the rest is tight and dry.',
  tells:
    'The first hold rose in a straight line: a leak somewhere. With the liquid line shut off the second ' +
    'one stayed flat, so all that the sensor still saw was tight. What leaks is what was shut off. That ' +
    'the part in sight held is no pass for the system: put the line under nitrogen, find the joint with ' +
    'soap solution, braze it anew with nitrogen flowing, and hold with all valves open.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: SECTION_SHUT_OFF,
};
