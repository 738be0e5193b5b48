/** The sensor's own joint leaks. */
import { paFromMicron } from '../../protocol/units.ts';
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import { leak, line, section, STUB } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { SENSOR_TRIED } from './usual-script.ts';

const VOLUME_M3 = 4.1e-3;
/** The sensor's side of the core tool's valve. */
const STUB_M3 = 1.2e-5;
const SENSOR_STUB = 2;
/** Steady rise with the valve closed, all of it from the sensor's joint. */
const RISE_PA_PER_S = paFromMicron(12) / 60;

function rig(leaking: boolean): RigSetup {
  const split = splitRig({
    system: {
      volumeM3: VOLUME_M3,
      startPa: { air: 100_800, water: 420, refrigerant: 0 },
      reservoirs: ordinaryWater(),
    },
    hoseM: 1.2,
  });
  return {
    ...split,
    sections: [
      ...split.sections,
      section({
        name: 'stub with the sensor',
        volumeM3: STUB_M3,
        inflows: leaking ? [leak('joint of the sensor', RISE_PA_PER_S * VOLUME_M3)] : [],
      }),
    ],
    ducts: [...split.ducts, line([SYSTEM, SENSOR_STUB], 5e-3, 0.06, STUB)],
    valves: [...split.valves, { name: STUB, opening: 1 }],
  };
}

export const OBSERVATORY_LANE_OFFICE: Scenario = {
  card: {
    name: 'observatory-lane-office',
    place: 'Office in Observatory Lane, meeting room',
    situation:
      'A ceiling cassette and 6 m of line set. One 3/8-inch hose of 1.2 m, cores out, a 4 cfm pump; the ' +
      'sensor sits on the other port, on a core tool with a valve of its own. After the hold the helper ' +
      'shuts that valve for three minutes, to see the sensor by itself.',
  },
  cause: 'gear_leak',
  truth:
    'The system is tight and dry. Air came in at the sensor’s own joint: 12 micron a minute into the ' +
    'whole system, and hundreds of times as much into the stub alone.',
  tells:
    'The hold rose in a straight line, as with any leak. Shut off from the system, the sensor rose ' +
    'hundreds of times faster: then what leaks is on its side of the valve, where there is next to no ' +
    'volume to fill. Had the system leaked, the reading would have stood still. Put a new gasket or a ' +
    'drop of the maker’s sealant on the sensor’s joint, and do the hold again.',
  rig: rig(true),
  sensorSection: SENSOR_STUB,
  inOrder: { rig: rig(false), sensorSection: SENSOR_STUB },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: SENSOR_TRIED,
};
