import { describe, expect, it } from 'vitest';
import { SeededRandom } from '../../../simulators/physics/seeded-random.ts';
import { Sensor, TYPICAL_SENSOR } from '../../../simulators/physics/sensor.ts';
import type { SensorSetup } from '../../../simulators/physics/sensor.ts';

const QUIET: SensorSetup = {
  shownPerPa: { air: 1, water: 1, refrigerant: 1 },
  lagS: 2,
  offsetPa: 0,
  relativeNoise: 0,
  additiveNoisePa: 0,
  steps: [{ fromPa: 0, stepPa: 1e-9 }],
  rangeHighPa: 20_000,
};

const air = (pressurePa: number) => ({ air: pressurePa, water: 0, refrigerant: 0 });

function readings(setup: SensorSetup, pressurePa: number, seed: number, count: number): number[] {
  const sensor = new Sensor(setup, air(pressurePa), new SeededRandom(seed));
  return Array.from({ length: count }, () => sensor.read() ?? NaN);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

describe('a simulated sensor', () => {
  it('follows a step like a first-order lag', () => {
    const sensor = new Sensor(QUIET, air(100), new SeededRandom(1));
    sensor.follow(2, air(200));
    expect(sensor.read()).toBeCloseTo(200 - 100 * Math.exp(-1), 6);
    sensor.follow(2, air(200));
    expect(sensor.read()).toBeCloseTo(200 - 100 * Math.exp(-2), 6);
  });

  it('follows at once without a lag', () => {
    const sensor = new Sensor({ ...QUIET, lagS: 0 }, air(100), new SeededRandom(1));
    sensor.follow(0.1, air(200));
    expect(sensor.read()).toBeCloseTo(200, 6);
  });

  it('knows no pressure above its range', () => {
    const sensor = new Sensor(QUIET, air(20_001), new SeededRandom(1));
    expect(sensor.read()).toBeNull();
    sensor.follow(60, air(19_000));
    expect(sensor.read()).toBeCloseTo(19_000, 6);
  });

  it('reads in steps and never below nothing', () => {
    const values = readings(
      { ...TYPICAL_SENSOR, steps: [{ fromPa: 0, stepPa: 0.5 }] },
      0.1,
      3,
      500,
    );
    expect(values.every((value) => value >= 0 && Number.isInteger(value * 2))).toBe(true);
    expect(new Set(values).size).toBeGreaterThan(1);
  });

  it('has the noise that it says, relative and additive', () => {
    // 4000 draws: the deviation is known to 1/√8000 = 1.1 %.
    const setup = { ...QUIET, relativeNoise: 0.01, additiveNoisePa: 0.5 };
    expect(deviation(readings(setup, 1000, 4, 4000)) / Math.hypot(10, 0.5)).toBeCloseTo(1, 1);
    expect(deviation(readings(setup, 1, 4, 4000)) / Math.hypot(0.01, 0.5)).toBeCloseTo(1, 1);
  });

  it('reads the same for the same seed only', () => {
    expect(readings(TYPICAL_SENSOR, 60, 7, 100)).toEqual(readings(TYPICAL_SENSOR, 60, 7, 100));
    expect(readings(TYPICAL_SENSOR, 60, 7, 100)).not.toEqual(readings(TYPICAL_SENSOR, 60, 8, 100));
  });
});

describe('seeded random numbers', () => {
  it('are spread evenly, or normally', () => {
    const random = new SeededRandom(0xffff_ffff);
    const even = Array.from({ length: 20_000 }, () => random.uniform());
    // Standard error of the mean: 1/√(12 · 20 000) = 0.002.
    expect(Math.abs(mean(even) - 0.5)).toBeLessThan(0.01);
    expect(even.every((value) => value >= 0 && value < 1)).toBe(true);
    const normal = Array.from({ length: 20_000 }, () => random.normal());
    expect(Math.abs(mean(normal))).toBeLessThan(0.035);
    expect(deviation(normal)).toBeCloseTo(1, 1);
    const beyondTwo = normal.filter((value) => Math.abs(value) > 2).length / normal.length;
    expect(beyondTwo).toBeCloseTo(0.0455, 2);
  });
});
