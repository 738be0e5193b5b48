/** How a sensor scatters, found again from readings that were scattered so. */
import type { Sample } from '../../../../web/analysis/readings/samples.ts';
import { noiseOf } from '../../../../web/analysis/rise/rise-noise.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

interface Sensor {
  readonly sigmaAt: (pressurePa: number) => number;
  /** How long its error lasts, s; 0: each is another one. */
  readonly lastsS: number;
  readonly count?: number;
  readonly intervalS?: number;
  readonly pressureAt?: (t: number) => number;
}

function samplesOf(seed: number, { sigmaAt, lastsS, ...rest }: Sensor): Sample[] {
  const { count = 900, intervalS = 1, pressureAt = (t) => 30 + 0.1 * t } = rest;
  const random = seeded(seed);
  const kept = lastsS > 0 ? Math.exp(-intervalS / lastsS) : 0;
  let error = normal(random);
  return Array.from({ length: count }, (_, n) => {
    error = kept * error + Math.sqrt(1 - kept * kept) * normal(random);
    const truePa = pressureAt(n * intervalS);
    return { count: 1, elapsedS: n * intervalS, pressurePa: truePa + sigmaAt(truePa) * error };
  });
}

/** The mean over some draws: one alone scatters by a tenth. */
const meanOf = (sensor: Sensor, of: (noise: ReturnType<typeof noiseOf>) => number) => {
  const seeds = [1, 2, 3, 4, 5, 6];
  return seeds.reduce((sum, seed) => sum + of(noiseOf(samplesOf(seed, sensor))), 0) / seeds.length;
};

describe('the scatter of a hold’s readings', () => {
  test('is found whatever the curve does, and white where each error is another', () => {
    const sensor: Sensor = { sigmaAt: () => 0.2, lastsS: 0 };
    expect(meanOf(sensor, ({ varianceAt }) => Math.sqrt(varianceAt(60)))).toBeCloseTo(0.2, 1);
    expect(meanOf(sensor, ({ varianceAt }) => varianceAt(60) / 0.04)).toBeGreaterThan(0.85);
    expect(meanOf(sensor, ({ varianceAt }) => varianceAt(60) / 0.04)).toBeLessThan(1.2);
    expect(meanOf(sensor, ({ whiteShare }) => whiteShare)).toBeGreaterThan(0.8);
    const bent = { ...sensor, pressureAt: (t: number) => 30 + 60 * (1 - Math.exp(-t / 100)) };
    expect(meanOf(bent, ({ varianceAt }) => varianceAt(60) / 0.04)).toBeLessThan(1.2);
  });

  test('grows with the pressure where the sensor’s does, and does not where it doesn’t', () => {
    const growing: Sensor = { sigmaAt: (pressurePa) => 0.01 * pressurePa, lastsS: 0 };
    const ratio = ({ varianceAt }: ReturnType<typeof noiseOf>) => varianceAt(110) / varianceAt(40);
    expect(meanOf(growing, ratio)).toBeGreaterThan(0.6 * (110 / 40) ** 2);
    expect(meanOf(growing, ratio)).toBeLessThan(1.4 * (110 / 40) ** 2);
    expect(meanOf({ sigmaAt: () => 0.5, lastsS: 0 }, ratio)).toBeLessThan(1.3);
  });

  test('that stays on one side for seconds is told from one that doesn’t', () => {
    for (const lastsS of [4, 8]) {
      const sensor: Sensor = { sigmaAt: () => 0.3, lastsS, count: 1800 };
      expect(meanOf(sensor, ({ whiteShare }) => whiteShare)).toBeLessThan(0.15);
      const found = meanOf(sensor, ({ correlationS }) => correlationS);
      expect(found).toBeGreaterThan(lastsS / 2);
      expect(found).toBeLessThan(lastsS * 2);
      expect(meanOf(sensor, ({ varianceAt }) => varianceAt(100) / 0.09)).toBeGreaterThan(0.5);
      expect(meanOf(sensor, ({ varianceAt }) => varianceAt(100) / 0.09)).toBeLessThan(2);
    }
  });

  test('does not depend on how often it is read', () => {
    for (const intervalS of [0.5, 5]) {
      const sensor: Sensor = { sigmaAt: () => 0.2, lastsS: 0, intervalS };
      expect(meanOf(sensor, ({ varianceAt }) => varianceAt(60) / 0.04)).toBeGreaterThan(0.8);
      expect(meanOf(sensor, ({ varianceAt }) => varianceAt(60) / 0.04)).toBeLessThan(1.25);
    }
  });

  test('is never less than a tenth of a micron or one part in five thousand', () => {
    const { varianceAt } = noiseOf(samplesOf(1, { sigmaAt: () => 0, lastsS: 0 }));
    expect(varianceAt(1000)).toBeGreaterThanOrEqual(0.2 ** 2);
    expect(varianceAt(1000)).toBeLessThan(0.25 ** 2);
    expect(Math.sqrt(varianceAt(0))).toBeGreaterThan(0);
  });

  test('leaves the quick beginning out: what is not noise there counts for nothing', () => {
    const quick = (t: number) => 30 + 0.1 * t + (t < 38 ? 15 * Math.sin(t) : 0);
    const sensor: Sensor = { sigmaAt: () => 0.2, lastsS: 0, pressureAt: quick, count: 110 };
    expect(meanOf(sensor, ({ varianceAt }) => varianceAt(60) / 0.04)).toBeLessThan(3);
  });

  test('of a few readings, or of none, is a number', () => {
    for (const count of [0, 1, 2, 5, 12]) {
      const noise = noiseOf(samplesOf(3, { sigmaAt: () => 0.2, lastsS: 0, count }));
      expect(noise.varianceAt(50)).toBeGreaterThan(0);
      expect(Number.isFinite(noise.varianceAt(50))).toBe(true);
      expect(noise.whiteShare).toBeGreaterThanOrEqual(0);
      expect(noise.whiteShare).toBeLessThanOrEqual(1);
    }
  });

  test('comes with the steps of the display at each moment', () => {
    const coarse = samplesOf(1, { sigmaAt: () => 0, lastsS: 0, count: 100 }).map((sample) => {
      return { ...sample, pressurePa: Math.round(sample.pressurePa / 2) * 2 };
    });
    const noise = noiseOf(coarse);
    for (const elapsedS of [0, 39, 40, 99, 1e6]) {
      expect(noise.stepsAt(elapsedS).stepPa, String(elapsedS)).toBeCloseTo(2, 9);
    }
    expect(noiseOf([]).stepsAt(5)).toEqual({ untilS: Infinity, stepPa: 0, dwellS: 0 });
  });
});
