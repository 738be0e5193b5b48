/** Tight and dry, with a little air caught in the bore of a ball valve, let go in the middle of the hold. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import { line, section } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { VALVES_TURNED } from './usual-script.ts';

const BALL_VALVES = 'ball valves';
/** What the bores of two shut ball valves of 3/8 inch hold. */
const CAUGHT_M3 = 1e-6;
const BORES = 2;

function rig(caught: boolean): RigSetup {
  const split = splitRig({
    system: {
      volumeM3: 4.3e-3,
      startPa: { air: 100_800, water: 410, refrigerant: 0 },
      reservoirs: ordinaryWater(410),
    },
    hoseM: 1.2,
  });
  return {
    ...split,
    sections: [...split.sections, section({ name: 'bores', volumeM3: CAUGHT_M3 })],
    ducts: [...split.ducts, line([SYSTEM, BORES], 3e-3, 0.01, BALL_VALVES)],
    valves: [...split.valves, { name: BALL_VALVES, opening: caught ? 0 : 1 }],
  };
}

export const LANTERN_COURT_LIBRARY: Scenario = {
  card: {
    name: 'lantern-court-library',
    place: 'Library in Lantern Court, periodicals room',
    situation:
      'A ceiling cassette and 7 m of line set with a pair of ball valves. One 3/8-inch hose of 1.2 m, ' +
      'cores out, a 4 cfm pump; the sensor sits on the other port. Eight minutes into the hold the ' +
      'helper turns the ball valves.',
  },
  cause: 'part_shut_off',
  truth:
    'Tight and dry. A shut ball valve keeps what is in its bore: a millilitre of air at the pressure ' +
    'of the room, which no pump had reached and which came out when the valves were turned.',
  tells:
    'The hold was flat, went up by nearly two hundred micron from one second to the next, and was flat ' +
    'again. No leak and no water does that: a step at the moment of a valve is what the valve let go. ' +
    'Turn ball valves half open before the pull-down, so that their bores are pumped too, and turn ' +
    'none during a hold.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: VALVES_TURNED,
};
