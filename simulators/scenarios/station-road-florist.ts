/** The pump's oil is old: it gets no deeper, whatever it is connected to. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { vanePump } from './building-blocks.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, PUMP_SIDE, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

/** Oil of many jobs holds the pump at some 800 micron: common practice, no source. */
const FOUL_PA = 95;
const WATER_PA = 25;

const rig = (foul: boolean) => {
  const { oil } = vanePump(PUMP_SIDE, 4);
  return splitRig({
    system: {
      volumeM3: 4e-3,
      startPa: { air: 100_700, water: 430, refrigerant: 0 },
      reservoirs: ordinaryWater(430),
    },
    hoseM: 1.2,
    pump: foul ? { oil: { ...oil, foulPa: FOUL_PA, waterStartPa: WATER_PA } } : {},
  });
};

export const STATION_ROAD_FLORIST: Scenario = {
  card: {
    name: 'station-road-florist',
    place: 'Florist in Station Road, shop',
    situation:
      'A ceiling cassette with 6 m of line set, piped and connected today. One 3/8-inch hose of 1.2 m, ' +
      'cores out, the 4 cfm pump of the van; the sensor sits on the other port.',
  },
  cause: 'pump_or_oil',
  truth:
    'The system is tight and dry. The pump’s oil was fouled by earlier jobs: with it the pump ' +
    'came to about 800 micron and no further.',
  tells:
    'It stood still above the target, and after valving off it hardly rose: so the system was not ' +
    'what kept it up. What remains is hose, pump and oil. Change the oil (the pump valved off ' +
    'first; pump and oil are hot) and see how deep the pump comes by itself; with fresh oil the ' +
    'target is a matter of minutes.',
  rig: rig(true),
  sensorSection: SYSTEM,
  inOrder: { rig: rig(false), sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
