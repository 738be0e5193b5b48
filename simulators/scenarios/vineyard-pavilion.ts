/** In order, while sun and clouds warm and cool it. */
import { TYPICAL_SENSOR } from '../physics/sensor.ts';
import { STEADY_RADIO, type Scenario } from './scenario.ts';
import { ordinaryWater, splitRig, SYSTEM } from './split-rig.ts';
import { USUAL_SCRIPT } from './usual-script.ts';

const RIG = splitRig({
  system: {
    volumeM3: 4.4e-3,
    startPa: { air: 100_400, water: 480, refrigerant: 0 },
    reservoirs: ordinaryWater(480),
  },
  hoseM: 1.2,
  // A dark line set on a southern wall on a day of passing clouds: invented.
  surroundings: {
    temperatureK: 299.15,
    humidityPa: 1200,
    driftKPerS: 4 / 3600,
    swingK: 3,
    swingPeriodS: 1500,
  },
});

export const VINEYARD_PAVILION: Scenario = {
  card: {
    name: 'vineyard-pavilion',
    place: 'Pavilion above the vineyard, tasting room',
    situation:
      'A wall unit and 9 m of line set along the southern wall. One 3/8-inch ' +
      'hose of 1.2 m, cores out, a 4 cfm pump; the sensor sits on the other port.',
  },
  cause: 'in_order',
  truth:
    'Tight and dry. The sun warmed the lines by some kelvin, and their walls gave off a little more, ' +
    'and took it back in the shade.',
  tells:
    'The hold fell and rose again, and the temperature did so with it. A leak knows no clouds: it ' +
    'goes on rising while the metal cools. Where temperature and pressure go together, wait, or ' +
    'shade the lines, and hold longer than a cloud lasts.',
  rig: RIG,
  sensorSection: SYSTEM,
  inOrder: { rig: RIG, sensorSection: SYSTEM },
  sensor: TYPICAL_SENSOR,
  radio: STEADY_RADIO,
  ballastOpen: true,
  nitrogenPa: 110_000,
  script: USUAL_SCRIPT,
};
