/** The hose leaks, and not the system. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import { FAIR_WEATHER } from '../physics/surroundings.ts';
import {
  hoseDuct,
  hoseSection,
  ISOLATION,
  leak,
  line,
  section,
  vanePump,
} from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, PUMP_SIDE, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

/** The end of the hose at the core tool, on the pump's side of the tool's valve. */
const HOSE_END = 2;
const BORE_M = 8e-3;

/** @param leaking with a worn gasket in the hose's fitting, or a new one */
function rig(leaking: boolean): RigSetup {
  return {
    surroundings: FAIR_WEATHER,
    sections: [
      section({
        name: 'system',
        volumeM3: 4.4e-3,
        startPa: { air: 100_900, water: 450, refrigerant: 0 },
        reservoirs: ordinaryWater(450),
      }),
      hoseSection(1.2),
      section({
        name: 'hose end',
        volumeM3: 1.5e-5,
        inflows: leaking ? [leak('gasket of the hose', 0.035)] : [],
      }),
    ],
    ducts: [
      line([SYSTEM, HOSE_END], BORE_M, 0.08, ISOLATION),
      hoseDuct(1.2, { between: [HOSE_END, PUMP_SIDE], valve: null }),
    ],
    valves: [{ name: ISOLATION, opening: 1 }],
    pump: vanePump(PUMP_SIDE, 4),
    nitrogen: { section: SYSTEM, conductanceM3PerS: 2e-4 },
  };
}

export const ORCHARD_CLOSE_FLAT: Scenario = {
  card: {
    name: 'orchard-close-flat',
    place: 'Flat in Orchard Close, bedroom',
    situation:
      'A wall unit was hung yesterday and connected with 8 m of line set. Hose and pump are those of ' +
      'the van, cores out; the sensor sits on the other port of the system.',
  },
  cause: 'gear_leak',
  truth:
    'The system is tight and dry. The hose let air in, through a worn gasket in its fitting at the core ' +
    'tool, on the pump’s side of the valve.',
  tells:
    'In the pull-down it looked like a leak: it stood still above the target. But once valved off at ' +
    'the core tool, which leaves the hose out, the reading hardly rose. A system that holds is not what ' +
    'kept it up. Change the gasket or the hose, and try pump and hose alone before the next job.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
