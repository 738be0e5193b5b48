/**
 * What is ordinary about a generated job: weather, system, gear, sensor. Every range is common
 * practice or invented, no source, unless it says otherwise.
 */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { celsiusFromKelvin, kelvinFromCelsius, paFromMicron } from '../../../protocol/units.ts';
import { waterVapourPressurePa } from '../../../protocol/water.ts';
import type { SensorSetup } from '../../physics/sensor.ts';
import { atmosphereAtHeightPa } from '../../../protocol/standard-atmosphere.ts';
import type { Surroundings } from '../../physics/surroundings.ts';
import { HOSE_1_2_M, HOSE_1_4_M, HOSE_3_8_M } from '../building-blocks.ts';
import type { Scenario } from '../scenario.ts';
import type { Chance } from './chance.ts';
import type { Difficulty } from './difficulty.ts';
import { drawSensor } from './sensor.ts';

export interface Job {
  readonly heightM: number;
  readonly surroundings: Surroundings;
  readonly metalTemperatureK: number;
  /** Of the whole system. */
  readonly volumeM3: number;
  readonly line: { readonly lengthM: number; readonly boreM: number };
  /** How much of the system lies beyond the line. */
  readonly farShare: number;
  /** Whether line and far part count as a section of their own; else the system is one volume. */
  readonly split: boolean;
  /** The sensor sits at the far part. */
  readonly sensorFar: boolean;
  /** Volume of the tool's stub that the sensor sits on; null: it sits on the system itself. */
  readonly stubM3: number | null;
  /** What the inside has been in balance with, Pa of vapour. */
  readonly insideVapourPa: number;
  readonly hose: { readonly lengthM: number; readonly boreM: number; readonly count: number };
  readonly pump: {
    readonly cfm: number;
    readonly ultimatePa: number;
    readonly coldFactor: number;
    readonly oilWaterPa: number;
    readonly batteryS: number | null;
  };
  readonly sensor: SensorSetup;
  /** All but the stretches in which nothing is heard. */
  readonly radio: Omit<Scenario['radio'], 'silences'>;
  readonly ballastAtStart: boolean;
  /** Valved off after so long below this … */
  readonly depthPa: number;
  readonly pumpOnS: number;
  /** … or so long after the ballast was closed. */
  readonly patienceS: number;
  readonly holdS: number;
}

/** Per difficulty: temperature's spread and bounds in °C, its drift in K/h, its swing in K. */
const WEATHER = {
  plain: { deviationC: 4, boundsC: [10, 30], driftKPerH: 0.2, swingK: 0 },
  mixed: { deviationC: 8, boundsC: [3, 40], driftKPerH: 1, swingK: 0.3 },
  hard: { deviationC: 12, boundsC: [0, 45], driftKPerH: 6, swingK: 2 },
} as const;

export function drawJob(chance: Chance, difficulty: Difficulty): Job {
  const heightM = chance.between(0, difficulty === 'hard' ? 2500 : 600);
  const surroundings = drawSurroundings(chance, difficulty, heightM);
  // Small room units are far more common than large ones.
  const volumeM3 = chance.spread(2e-3, 60e-3);
  const split = chance.happens({ plain: 0, mixed: 0.3, hard: 0.6 }[difficulty]);
  return {
    heightM,
    surroundings,
    metalTemperatureK: surroundings.temperatureK + chance.between(-2, 2),
    volumeM3,
    line: drawLine(chance),
    farShare: chance.between(0.2, 0.6),
    split,
    sensorFar: split && chance.happens(0.4),
    stubM3: chance.happens(difficulty === 'plain' ? 0 : 0.3) ? chance.spread(2e-5, 1e-4) : null,
    insideVapourPa: Math.min(
      chance.between(150, 350),
      0.8 * saturationPa(surroundings.temperatureK),
    ),
    hose: {
      lengthM: chance.between(0.6, 2),
      boreM: chance.weighted([
        [HOSE_3_8_M, 6],
        [HOSE_1_2_M, 2],
        // Nobody takes a thin hose to a large system.
        [HOSE_1_4_M, difficulty === 'plain' || volumeM3 > 12e-3 ? 0 : 2],
      ]),
      count: chance.happens(0.25) ? 2 : 1,
    },
    pump: {
      cfm: volumeM3 > 20e-3 ? chance.oneOf([4, 6, 8, 10]) : chance.oneOf([2, 3, 4, 4, 5, 6, 8]),
      ultimatePa: chance.spread(1, 6),
      coldFactor: chance.between(1.2, 3),
      oilWaterPa: chance.spread(0.1, difficulty === 'plain' ? 3 : 10),
      batteryS: chance.happens(0.2) ? chance.between(120, 240) * 60 : null,
    },
    sensor: drawSensor(chance, difficulty),
    radio: {
      restartsAtS: chance.happens(difficulty === 'hard' ? 0.1 : 0) ? [chance.whole(60, 2400)] : [],
      batteryPercent: chance.between(40, 100),
      batteryPercentPerHour: chance.between(0.5, 3),
    },
    ballastAtStart: chance.happens(0.7),
    depthPa: paFromMicron(difficulty === 'plain' ? 250 : chance.between(200, 350)),
    pumpOnS: chance.between(3, 10) * 60,
    // A minute more for each litre.
    patienceS: (45 + volumeM3 * 1000) * 60,
    holdS: DEFAULT_SHEET.holdS + (difficulty === 'plain' ? 60 : chance.whole(60, 900)),
  };
}

/** Longer lines are wider. */
function drawLine(chance: Chance): Job['line'] {
  const lengthM = chance.spread(3, 50);
  return { lengthM, boreM: chance.between(8e-3, 11e-3) + 2e-4 * lengthM };
}

function drawSurroundings(chance: Chance, difficulty: Difficulty, heightM: number): Surroundings {
  const { deviationC, boundsC, driftKPerH, swingK } = WEATHER[difficulty];
  const temperatureK = kelvinFromCelsius(chance.near(20, deviationC, boundsC));
  return {
    temperatureK,
    driftKPerS: chance.between(-driftKPerH, driftKPerH) / 3600,
    swingK: chance.between(0, swingK),
    swingPeriodS: chance.between(10, 60) * 60,
    atmospherePa: atmosphereAtHeightPa(heightM),
    // Of the relative humidity.
    humidityPa: chance.between(0.25, 0.85) * saturationPa(temperatureK),
  };
}

/** Vapour pressure of water (below the triple point, of ice) at a temperature, Pa. */
export function saturationPa(temperatureK: number): number {
  return waterVapourPressurePa(celsiusFromKelvin(temperatureK));
}
