/** Jumps in a rise: gas that was trapped and let go at once. */
import type { Sample } from '../../../../web/analysis/readings/samples.ts';
import {
  riseShapes,
  shapeAt,
  shapeColumn,
  shapeRate,
} from '../../../../web/analysis/rise/rise-shapes.ts';
import { riseSteps } from '../../../../web/analysis/rise/rise-steps.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

interface Hold {
  readonly jumps?: readonly (readonly [atS: number, sizePa: number])[];
  readonly sigmaPa?: number;
  readonly intervalS?: number;
  readonly stepPa?: number;
  readonly lengthS?: number;
  readonly base?: (t: number) => number;
  readonly silent?: readonly [fromS: number, toS: number];
  readonly isolatedS?: number;
  readonly seed?: number;
}

function stepsOf(hold: Hold) {
  const { jumps = [], sigmaPa = 0.1, intervalS = 1, stepPa = 0, lengthS = 400 } = hold;
  const { base = (t) => 40 + 0.02 * t, silent = [-1, -1], isolatedS = 1000, seed = 9 } = hold;
  const random = seeded(seed);
  const samples: Sample[] = [];
  for (let t = 0; t <= lengthS; t += intervalS) {
    const jumpedPa = jumps.reduce((sum, [atS, sizePa]) => sum + (t >= atS ? sizePa : 0), 0);
    const pressurePa = base(t) + jumpedPa + sigmaPa * normal(random);
    if (t > silent[0] && t < silent[1]) continue;
    samples.push({
      count: 1,
      elapsedS: isolatedS + t,
      pressurePa: stepPa > 0 ? Math.round(pressurePa / stepPa) * stepPa : pressurePa,
    });
  }
  return riseSteps(samples, isolatedS);
}

describe('a jump', () => {
  test('is found between the last reading before it and the first after, by its size', () => {
    const found = stepsOf({ jumps: [[200, 10]] });
    expect(found).toHaveLength(1);
    expect(found[0]?.sizePa).toBeCloseTo(10, 0);
    expect(found[0]?.toS).toBeGreaterThanOrEqual(1199);
    expect(found[0]?.toS).toBeLessThanOrEqual(1201);
    expect(found[0]?.fromS).toBe((found[0]?.toS ?? 0) - 1);
  });

  test('is one of several, in order of time, each at its place', () => {
    const found = stepsOf({
      jumps: [
        [300, 20],
        [120, 10],
      ],
    });
    expect(found.map(({ toS }) => Math.round((toS - 1000) / 10) * 10)).toEqual([120, 300]);
    expect(found.map(({ sizePa }) => Math.round(sizePa / 5) * 5)).toEqual([10, 20]);
  });

  test('of slow readings is found as well', () => {
    const found = stepsOf({ jumps: [[1000, 10]], intervalS: 5, lengthS: 2000 });
    expect(found).toHaveLength(1);
    expect(found[0]?.sizePa).toBeCloseTo(10, 0);
  });

  test.each([5, 1, 0.2])('is at its place in a rise with noise, read each %d s', (intervalS) => {
    for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const atS = 600 + 10 * seed;
      const base = (t: number) => 40 + 0.05 * t;
      const hold = {
        jumps: [[atS, 12]],
        sigmaPa: 0.4,
        intervalS,
        lengthS: 1200,
        base,
        seed,
      } as const;
      const [found] = stepsOf(hold);
      expect(found?.toS, `seed ${seed}`).toBeCloseTo(1000 + atS, 6);
      expect(found?.fromS, `seed ${seed}`).toBeCloseTo(1000 + atS - intervalS, 6);
    }
  });

  test('beside a steep rise is its size beyond that rise', () => {
    const [found] = stepsOf({ jumps: [[200, 20]], base: (t) => 40 + 0.5 * t });
    expect(found?.sizePa).toBeCloseTo(20, -1);
  });
});

describe('no jump', () => {
  test.each<[string, Hold]>([
    ['in a smooth rise', {}],
    ['in a rise that levels off', { base: (t) => 40 + 80 * (1 - Math.exp(-t / 60)) }],
    ['of less than 3 % of the pressure', { jumps: [[200, 1]], sigmaPa: 0.01 }],
    ['within the noise', { jumps: [[200, 3]], sigmaPa: 1 }],
    ['as the valve is turned', { jumps: [[20, 20]] }],
    ['downward', { jumps: [[200, -20]] }],
    ['by one digit of a coarse display', { stepPa: 5, sigmaPa: 0, base: (t) => 40 + 0.1 * t }],
    ['across a silence', { jumps: [[200, 10]], silent: [150, 250] }],
    ['in too few readings', { jumps: [[30, 30]], lengthS: 40, intervalS: 4 }],
    ['in none', { lengthS: -1 }],
  ])('%s', (_what, hold) => {
    expect(stepsOf(hold)).toEqual([]);
  });

  test('of a spike alone, or of a curve that gets steeper', () => {
    expect(stepsOf({ base: (t) => (t === 200 ? 90 : 40 + 0.02 * t) })).toEqual([]);
    expect(stepsOf({ base: (t) => 40 + 0.0004 * t * t })).toEqual([]);
  });
});

describe('what a rise may be made of', () => {
  test('is a leak, and what levels off: from twelve seconds, each half as long again', () => {
    const shapes = riseShapes(900);
    expect(shapes[0]).toEqual({ kind: 'leak', tauS: 0 });
    const taus = shapes.slice(1).map(({ kind, tauS }) => {
      expect(kind).toBe('release');
      return tauS;
    });
    expect(taus[0]).toBe(12);
    for (const [n, tauS] of taus.entries())
      if (n > 0) expect(tauS / (taus[n - 1] ?? 1)).toBeCloseTo(1.5, 9);
    // The slowest is that of the grid nearest to 1000 s and four times the length.
    expect(Math.abs(Math.log((taus.at(-1) ?? 1) / 4600))).toBeLessThanOrEqual(
      Math.log(1.5) / 2 + 1e-9,
    );
    expect(riseShapes(60).length).toBeLessThan(shapes.length);
  });

  test('has added one by the end of what was seen, the leak its time', () => {
    for (const shape of riseShapes(900)) {
      const isLeak = shape.kind === 'leak';
      expect(shapeAt(shape, 0, 900)).toBeCloseTo(0, 12);
      expect(shapeAt(shape, 900, 900)).toBeCloseTo(isLeak ? 900 : 1, 9);
      if (!isLeak) {
        const level = 1 / (1 - Math.exp(-900 / shape.tauS));
        expect(shapeAt(shape, shape.tauS, 900)).toBeCloseTo(level * (1 - Math.exp(-1)), 9);
      }
      const times = Float64Array.of(0, 10, 300, 900, 2000);
      const column = shapeColumn(shape, times, 900);
      for (const [i, heldS] of times.entries()) {
        expect(column[i]).toBeCloseTo(shapeAt(shape, heldS, 900), 12);
        const slope =
          (shapeAt(shape, heldS + 0.01, 900) - shapeAt(shape, heldS - 0.01, 900)) / 0.02;
        expect(shapeRate(shape, heldS, 900)).toBeCloseTo(slope, 5);
      }
      column[0] = 99;
      expect(times[0]).toBe(0);
    }
  });
});
