/** Readings thinned in several ways: for the stages, for what is to come, and where a sensor's range ends. */
import { agedPoints, pullDownPoints } from '../../../../web/analysis/pull-down/pull-down-points.ts';
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { inRange } from '../../../../web/analysis/readings/in-range.ts';
import type { Sample } from '../../../../web/analysis/readings/samples.ts';
import { coarseBins, stageBins, stageBorderS } from '../../../../web/analysis/stages/stage-bins.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const bin = (elapsedS: number, overRange = 0, count = 1): TimeBin => ({
  ...{ elapsedS, count, overRange, temperatureC: null },
  pressurePa: count === 0 ? null : 50,
});
const samples = (count: number, pressureAt = (t: number) => 100 + t, stepS = 1): Sample[] =>
  Array.from({ length: count }, (_, i) => ({
    ...{ elapsedS: (i + 1) * stepS, pressurePa: pressureAt((i + 1) * stepS), count: 1 },
  }));

describe('the end of a sensor’s range', () => {
  const bins = (over: readonly number[], length = 200) =>
    Array.from({ length }, (_, i) => (over.includes(i) ? bin(i, 1, 0) : bin(i)));

  test('is where a tenth of the readings is beyond it, and not a lone one', () => {
    const all = bins([]);
    expect(inRange(all)).toBe(all);
    const lone = bins([150]);
    expect(inRange(lone)).toBe(lone);
    expect(inRange(bins([150, 155]))).toHaveLength(140);
    // In the last bins one is more than a tenth of what follows.
    expect(inRange(bins([195]))).toHaveLength(185);
  });

  test('leaves what lies close below it out: ten bins, of few a fifth', () => {
    expect(inRange(bins([150, 151, 152]))).toHaveLength(140);
    expect(inRange(bins([40, 41, 42]))).toHaveLength(32);
    expect(inRange(bins([50, 51, 52]))).toHaveLength(40);
    expect(inRange(bins([0, 1]))).toEqual([]);
    expect(inRange([])).toEqual([]);
  });

  test('goes by readings, not by bins', () => {
    const mixed = bins([]).map((each, i) =>
      i >= 100 ? { ...each, count: 30, overRange: 3 } : each,
    );
    expect(inRange(mixed)).toBe(mixed);
    const more = mixed.map((each, i) => (i >= 100 ? { ...each, overRange: 4 } : each));
    expect(inRange(more)).toHaveLength(90);
  });
});

describe('what the stages are told from', () => {
  const heard = (lengthS: number) => {
    const history = new History();
    for (let t = 1; t <= lengthS; t += 1) {
      const condition = t % 97 === 0 ? 'over_range' : 'ok';
      const pressurePa = condition === 'ok' ? 50 + (t % 4) : null;
      history.insert({ elapsedS: t, pressurePa, condition, temperatureC: t / 1000 });
    }
    return history;
  };

  test('is every second of the last quarter of an hour, and four seconds together before', () => {
    const nowS = 3000;
    const borderS = stageBorderS(nowS);
    expect(nowS - borderS).toBeGreaterThanOrEqual(1024);
    expect(nowS - borderS).toBeLessThan(1024 + 512);
    const bins = stageBins(heard(nowS), nowS);
    const [fine, coarse] = [true, false].map((isFine) =>
      bins.filter(({ elapsedS }) => elapsedS > borderS === isFine),
    );
    expect(fine).toHaveLength(nowS - borderS);
    expect(coarse).toHaveLength(borderS / 4);
    expect(bins.map(({ elapsedS }) => elapsedS)).toEqual(
      bins.map(({ elapsedS }) => elapsedS).sort((a, b) => a - b),
    );
    expect(bins.reduce((sum, { count, overRange }) => sum + count + overRange, 0)).toBe(nowS);
  });

  test('has of four seconds their mean, what was over range, and the latest temperature', () => {
    const [first] = coarseBins(heard(3000), 1536);
    // Seconds 1 to 4: 51, 52, 53 and 50 Pa.
    expect(first?.elapsedS).toBeCloseTo(2.5, 9);
    expect(first?.pressurePa).toBeCloseTo(51.5, 6);
    expect(first?.count).toBe(4);
    expect(first?.temperatureC).toBeCloseTo(0.004, 6);
    const withOver = coarseBins(heard(3000), 1536)[24];
    // Seconds 97 to 100: the first of them over range, then 52, 53 and 50... of 98, 99 and 100.
    expect(withOver).toMatchObject({ count: 3, overRange: 1 });
    expect(withOver?.pressurePa).toBeCloseTo((52 + 53 + 50) / 3, 6);
  });

  test('stays as it is before the border, which moves in steps', () => {
    expect(stageBorderS(1535)).toBe(-1);
    expect(stageBorderS(1536)).toBe(512);
    expect(stageBorderS(2047.9)).toBe(512);
    expect(stageBorderS(2048)).toBe(1024);
    expect(coarseBins(heard(100), -1)).toEqual([]);
    expect(stageBins(heard(100), 100)).toHaveLength(100);
  });

  test('is a lone bin as it is, and nothing of seconds that nobody heard', () => {
    const history = new History();
    for (const elapsedS of [6, 1500, 2900])
      history.insert({ elapsedS, pressurePa: 40, condition: 'ok', temperatureC: null });
    expect(stageBins(history, 3000).map(({ elapsedS }) => elapsedS)).toEqual([6, 1500, 2900]);
  });
});

describe('points for what is to come', () => {
  test('are every second of late, and wider the longer ago, none lost', () => {
    const points = pullDownPoints(samples(600), 600);
    expect(points.at(-1)?.elapsedS).toBe(600);
    expect(points.length).toBeGreaterThan(70);
    expect(points.length).toBeLessThan(110);
    const steps = points.slice(1).map(({ elapsedS }, i) => elapsedS - (points[i]?.elapsedS ?? 0));
    expect(steps.at(-1)).toBe(1);
    expect(steps[0]).toBeGreaterThan(10);
    for (const { elapsedS, pressurePa } of points)
      expect(pressurePa).toBeCloseTo(100 + elapsedS, 9);
    for (const [i, step] of steps.entries()) {
      const agoS = 600 - (points[i]?.elapsedS ?? 0);
      expect(step).toBeLessThan(Math.max(1, 0.05 * agoS) + 2);
    }
  });

  test('are medians: a spike in a group moves none', () => {
    const spiked = samples(600, (t) => (t === 100 ? 9e4 : 100 + t));
    for (const { elapsedS, pressurePa } of pullDownPoints(spiked, 600))
      expect(Math.abs(pressurePa - 100 - elapsedS)).toBeLessThan(1);
  });

  test('are the readings themselves where these come seldom, and none of none', () => {
    const seldom = samples(10, undefined, 120);
    expect(pullDownPoints(seldom, 1200)).toEqual(
      seldom.map(({ elapsedS, pressurePa }) => ({ elapsedS, pressurePa })),
    );
    expect(pullDownPoints([], 10)).toEqual([]);
    expect(pullDownPoints(samples(1), 10)).toEqual([{ elapsedS: 1, pressurePa: 101 }]);
  });

  test('of more readings than there was room for are of all of them', () => {
    const many = samples(9000, () => 70, 0.1);
    const points = pullDownPoints(many, 90_000);
    expect(points).toHaveLength(1);
    expect(points[0]?.elapsedS).toBeCloseTo(450.05, 6);
  });
});

describe('points by the age', () => {
  test('are half a minute first, and then a fiftieth of the age each', () => {
    const points = agedPoints(samples(1000), 0, 1000);
    expect(points[0]?.elapsedS).toBeCloseTo(15.5, 9);
    const ends = [30];
    while ((ends.at(-1) ?? 0) * 1.02 < 1000) ends.push((ends.at(-1) ?? 0) * 1.02);
    for (const [i, endS] of ends.slice(1).entries()) {
      const fromS = ends[i] ?? 0;
      const within = points.filter(({ elapsedS }) => elapsedS > fromS && elapsedS <= endS);
      expect(within.length).toBeLessThanOrEqual(1);
    }
    for (const { elapsedS, pressurePa } of points)
      expect(pressurePa).toBeCloseTo(100 + elapsedS, 9);
  });

  test('stay as they are at every later moment', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 900 }),
        fc.integer({ min: 1, max: 99 }),
        (nowS, moreS) => {
          const all = samples(1000);
          const earlier = agedPoints(all.slice(0, nowS), 0, nowS);
          const later = agedPoints(all.slice(0, nowS + moreS), 0, nowS + moreS);
          expect(later.slice(0, earlier.length)).toEqual(earlier);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('count from the change that they are asked about, and are none before half a minute', () => {
    expect(agedPoints(samples(29), 0, 29)).toEqual([]);
    expect(agedPoints(samples(30), 0, 30)).toHaveLength(1);
    const [first] = agedPoints(samples(400), 200, 400);
    expect(first?.elapsedS).toBeCloseTo(215.5, 9);
    expect(agedPoints(samples(100), 200, 300)).toEqual([]);
    expect(agedPoints([], 0, 100)).toEqual([]);
  });

  test('go on after a silence', () => {
    const silent = samples(600).filter(({ elapsedS }) => elapsedS <= 100 || elapsedS > 400);
    const points = agedPoints(silent, 0, 600);
    expect(points.filter(({ elapsedS }) => elapsedS > 100 && elapsedS <= 400)).toEqual([]);
    expect(points.filter(({ elapsedS }) => elapsedS > 400).length).toBeGreaterThan(10);
  });
});

describe('a history', () => {
  const heard = (...times: readonly number[]) => {
    const history = new History();
    for (const elapsedS of times)
      history.insert({ elapsedS, pressurePa: 40, condition: 'ok', temperatureC: null });
    return history;
  };

  test('counts what came after a later reading, and not what came at the same moment', () => {
    expect(heard(1, 2, 3).lateReadings).toBe(0);
    expect(heard(1, 3, 3).lateReadings).toBe(0);
    expect(heard(1, 3, 2, 1, 4).lateReadings).toBe(2);
    expect(heard(0, 0).lateReadings).toBe(0);
  });

  test('knows its first and its last, and nothing of times that are none', () => {
    expect([heard().firstS, heard().lastS]).toEqual([null, null]);
    expect([heard(5).firstS, heard(5).lastS]).toEqual([5, 5]);
    const odd = heard(7, -1, Number.NaN, 2 ** 41, Infinity, 3);
    expect([odd.firstS, odd.lastS, odd.lateReadings]).toEqual([3, 7, 1]);
    expect(odd.bins(-1, 100)).toHaveLength(2);
  });

  test('has what is under range low and in range, what is absurd over it, and what is no number nowhere', () => {
    const history = new History();
    const insert = (elapsedS: number, pressurePa: number | null, condition: 'ok' | 'under_range') =>
      history.insert({ elapsedS, pressurePa, condition, temperatureC: 20 });
    insert(1, null, 'under_range');
    insert(2, 2e6, 'ok');
    insert(3, -4, 'ok');
    insert(4, null, 'ok');
    insert(5, Number.NaN, 'ok');
    insert(6, 1e6, 'ok');
    const bins = history.bins(-1, 10);
    expect(bins.map(({ elapsedS }) => elapsedS)).toEqual([1, 2, 3, 6]);
    expect(bins[0]?.pressurePa).toBeCloseTo(0.1, 6);
    expect(bins[1]?.pressurePa).toBeNull();
    expect(bins[2]?.pressurePa).toBe(0);
    expect(bins[3]?.pressurePa).toBeCloseTo(1e6, 3);
  });

  test('has bins that end on whole seconds, the border with the one before', () => {
    const bins = heard(1, 1.001, 2, 2.5, 3).bins(-1, 10);
    expect(bins.map(({ count }) => count)).toEqual([1, 2, 2]);
    expect(heard(1, 2, 3).bins(1, 3)).toHaveLength(2);
    expect(heard(1, 2, 3).bins(1, 2.9)).toHaveLength(1);
    expect(heard(1, 2, 3).bins(0.5, 3)).toHaveLength(2);
  });

  test('takes bytes as it grows, and gives back temperatures in the mean', () => {
    expect(heard().bytes).toBe(0);
    expect(heard(1, 5000).bytes).toBeGreaterThan(heard(1).bytes);
    const history = heard();
    for (const [elapsedS, temperatureC] of [
      [0.2, 20],
      [0.4, 21],
      [0.6, null],
      [0.8, Number.NaN],
    ] as const)
      history.insert({ elapsedS, pressurePa: 40, condition: 'ok', temperatureC });
    expect(history.bins(-1, 1)[0]?.temperatureC).toBeCloseTo(20.5, 9);
    expect(history.bins(-1, 1)[0]?.elapsedS).toBeCloseTo(0.5, 9);
  });
});
