/** The sensor of a generated job. Ranges: typical of small electronic gauges, no source. */
import { paFromMicron } from '../../../protocol/units.ts';
import { THERMAL_SENSOR, TYPICAL_SENSOR, type SensorSetup } from '../../physics/sensor.ts';
import type { Chance } from './chance.ts';
import type { Difficulty } from './difficulty.ts';

/** Bounds of noise as a share, of lag in s, steps in micron, error either way in Pa, share of thermal ones. */
interface Quality {
  readonly noise: readonly [number, number];
  readonly lagS: readonly [number, number];
  readonly stepsMicron: readonly [number, ...number[]];
  readonly offsetPa: number;
  readonly thermal: number;
}

const QUALITY: Readonly<Record<Difficulty, Quality>> = {
  plain: { noise: [0.001, 0.005], lagS: [0.3, 1.5], stepsMicron: [1], offsetPa: 0, thermal: 0 },
  mixed: {
    noise: [0.002, 0.01],
    lagS: [0.3, 4],
    stepsMicron: [1, 5],
    offsetPa: 1,
    thermal: 0.2,
  },
  hard: { noise: [0.003, 0.02], lagS: [0.5, 10], stepsMicron: [1, 10], offsetPa: 3, thermal: 0.5 },
};

export function drawSensor(chance: Chance, difficulty: Difficulty): SensorSetup {
  const { noise, lagS, stepsMicron, offsetPa, thermal } = QUALITY[difficulty];
  const stepPa = paFromMicron(chance.oneOf(stepsMicron));
  return {
    ...(chance.happens(thermal) ? THERMAL_SENSOR : TYPICAL_SENSOR),
    lagS: chance.spread(...lagS),
    offsetPa: chance.between(-offsetPa, offsetPa),
    relativeNoise: chance.spread(...noise),
    additiveNoisePa: chance.spread(0.03, 0.3),
    // Coarser near the top, as displays with few digits are.
    steps: [
      { fromPa: 0, stepPa },
      { fromPa: 1000, stepPa: 10 * stepPa },
      { fromPa: 10_000, stepPa: 100 * stepPa },
    ],
    rangeHighPa: chance.spread(2500, 100_000),
  };
}
