/** The sensor sits at the pump and not at the system. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { CORE_M, heldWater } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, PUMP_SIDE, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const RIG = splitRig({
  system: {
    volumeM3: 5.2e-3,
    startPa: { air: 100_500, water: 500, refrigerant: 0 },
    reservoirs: ordinaryWater(500),
  },
  hoseM: 1.8,
  hose: { coreDiameterM: CORE_M },
  // Rubber gives off a little for hours.
  atPump: { reservoirs: [heldWater(4e-7, 2000, 400)] },
});

export const COPPER_ROW_WORKSHOP: Scenario = {
  card: {
    name: 'copper-row-workshop',
    place: 'Workshop in Copper Row, office',
    situation:
      'A wall unit and 10 m of line set, moved from next door and connected again. An apprentice has ' +
      'connected hose, pump and sensor; the pump says 4 cfm.',
  },
  cause: 'sensor_place',
  truth:
    'The sensor sat on the pump’s side of the hose. While gas flows the pressure there is far below ' +
    'that of the system, and once the valve at the system is closed it sees nothing of the system. What ' +
    'the system does, nobody knows.',
  tells:
    'On valving off the reading fell instead of rising, and stayed down. A sensor that sees the ' +
    'system rises then, if only a little. While pumping it was lower than such a system can be so ' +
    'soon. Put the sensor on a port of the system, as far from the pump as can be, and do the ' +
    'hold again: the first one says nothing.',
  rig: RIG,
  sensorSection: PUMP_SIDE,
  inOrder: { rig: RIG, sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
