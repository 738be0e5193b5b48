/** The parts of which a hold’s verdict is made, each by itself. */
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import type { Sample } from '../../../../web/analysis/readings/samples.ts';
import { END_QUANTILES, endOfHold } from '../../../../web/analysis/rise/end-of-hold.ts';
import { EstimateCells } from '../../../../web/analysis/rise/estimate-cells.ts';
import { leakTold } from '../../../../web/analysis/rise/leak-told.ts';
import { KINDS, kindOf } from '../../../../web/analysis/rise/rise-kinds.ts';
import type { Noise } from '../../../../web/analysis/rise/rise-noise.ts';
import { type RisePoint, risePoints } from '../../../../web/analysis/rise/rise-points.ts';
import { riseSamples } from '../../../../web/analysis/rise/rise-samples.ts';
import { warmingOf } from '../../../../web/analysis/rise/rise-warming.ts';
import { splitsOf } from '../../../../web/analysis/rise/slow-between-holds.ts';
import { alternativesOfRise } from '../../../../web/analysis/stages/rise-certainty.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

describe('an estimate from many normal distributions', () => {
  const cellsOf = (
    parts: readonly (readonly [mean: number, sigma: number, weight: number])[],
    more = 0,
  ) => {
    const moments = Float64Array.from(parts.flatMap(([mean, sigma]) => [mean, sigma, 0, 0]));
    const shares = Float64Array.from(parts, ([, , weight]) => weight);
    const cells = new EstimateCells(moments, 0, shares, 0.01, more);
    for (const part of parts) cells.add(...part);
    return cells;
  };

  test('of which there are many is their median, with a twentieth beyond each end', () => {
    const parts = Array.from({ length: 400 }, (_, n) => [100 + n / 4, 0.01, 1] as const);
    const { low, estimate, high } = cellsOf(parts).estimate();
    expect(estimate).toBeCloseTo(150, 0);
    expect(low).toBeCloseTo(105, 0);
    expect(high).toBeCloseTo(195, 0);
  });

  test('stands for other shares where they are asked for', () => {
    const parts = Array.from({ length: 400 }, (_, n) => [n / 4, 0.01, 1] as const);
    const found = cellsOf(parts).estimate(END_QUANTILES);
    expect(found.estimate).toBeCloseTo(56, 0);
    expect(found.low).toBeCloseTo(5, 0);
    expect(found.high).toBeCloseTo(96, 0);
  });

  test('of one has its mean, and is wide as it is', () => {
    const { low, estimate, high } = cellsOf([[50, 4, 2]]).estimate();
    expect(Math.abs(estimate - 50)).toBeLessThan(0.1);
    // Of the three nodes that stand for it the outer ones lie √3 deviations away.
    expect(50 - low).toBeCloseTo(4 * Math.sqrt(3), 0);
    expect(high - 50).toBeCloseTo(4 * Math.sqrt(3), 0);
  });

  test('weighs, and leaves out what has next to no share', () => {
    expect(
      cellsOf([
        [10, 0.1, 1],
        [90, 0.1, 9],
      ]).estimate().estimate,
    ).toBeCloseTo(90, 0);
    const cells = cellsOf([
      [10, 0.1, 1],
      [1e6, 0.1, 0.001],
    ]);
    expect(cells.estimate().low).toBeCloseTo(9.8, 0);
    const beyond = cellsOf([[10, 1, 1]], 100);
    beyond.add(100, 1, 3);
    expect(beyond.estimate().estimate).toBeCloseTo(100, 0);
  });
});

describe('the end of a hold', () => {
  test('is as sure as its mixtures, and seven hundredths of what is still to come', () => {
    const found = endOfHold({ estimate: 80, low: 77, high: 84 }, 60);
    const misfit = 1.645 * 0.07 * 20;
    expect(found.estimate).toBe(80);
    expect(found.low).toBeCloseTo(80 - Math.hypot(3, misfit), 12);
    expect(found.high).toBeCloseTo(80 + Math.hypot(4, misfit), 12);
    expect(endOfHold({ estimate: 60, low: 57, high: 64 }, 60)).toEqual({
      estimate: 60,
      low: 57,
      high: 64,
    });
    expect(endOfHold({ estimate: 40, low: 40, high: 40 }, 60).low).toBeCloseTo(40 - misfit, 12);
  });
});

describe('the kind of a rise', () => {
  const LIMITS = { leakLimitPaPerS: 0.01, allowedRisePa: 20, holdS: 1000 };
  const kind = (leakPaPerS: number, levelledPa: number) =>
    KINDS[kindOf(leakPaPerS, levelledPa, LIMITS)];

  test.each([
    // Up to three fifths of the leak’s limit, and under three quarters of the allowed rise.
    [0, 0, 'tight_dry'],
    [0.006, 8.9, 'tight_dry'],
    [0, 14.9, 'tight_dry'],
    [0, 15, 'some_moisture'],
    [0.006, 9.1, 'some_moisture'],
    // A quarter more than allowed, at most a fifth of it inflow.
    [0, 25, 'moisture'],
    [0, 24.9, 'some_moisture'],
    [0.005, 20.1, 'moisture'],
    [0.0055, 19.6, 'some_moisture'],
    // Four fifths of it inflow, twice the limit and more.
    [0.02, 5, 'leak'],
    [0.02, 5.1, 'leak_and_moisture'],
    [0.0199, 4.9, 'small_leak'],
    [0.0101, 2, 'small_leak'],
    [0.01, 2, 'neither'],
    [0.0061, 1, 'neither'],
    [0.0101, 10, 'leak_and_moisture'],
    [0.01, 10, 'neither'],
    [0.0061, 10, 'neither'],
    [0.0101, 100, 'moisture'],
  ])('%d Pa/s and %d Pa: %s', (leakPaPerS, levelledPa, expected) => {
    expect(kind(leakPaPerS, levelledPa)).toBe(expected);
  });
});

describe('a rise that nobody marked', () => {
  const read = (pressureAt: (t: number) => number, lengthS: number, stepS = 1) => {
    const bins = Array.from({ length: (100 + lengthS) / stepS + 1 }, (_, n): TimeBin => {
      const pressurePa = n * stepS < 100 ? 30 : pressureAt(n * stepS - 100);
      return { elapsedS: n * stepS, pressurePa, count: 1, overRange: 0, temperatureC: null };
    });
    return alternativesOfRise(new Trace(bins), 100, 100 + lengthS);
  };
  const SURE = ['pump_stopped'];
  const UNSURE = ['pull_down', 'pump_stopped'];

  test('that goes on is one', () => {
    expect(read((t) => 30 + 0.05 * t, 300)).toEqual(SURE);
    expect(read((t) => 30 + 20 * (1 - Math.exp(-t / 200)), 300)).toEqual(SURE);
  });

  test('that is small, or came to rest, may be something on the pump’s side', () => {
    expect(read((t) => 30 + 0.002 * t, 300)).toEqual(UNSURE);
    expect(read((t) => 30 + 20 * (1 - Math.exp(-t / 15)), 300)).toEqual(UNSURE);
    expect(read(() => 50, 300)).toEqual(UNSURE);
  });

  test('is not doubted within its first minute, or by a few readings', () => {
    expect(read(() => 30, 59)).toEqual(SURE);
    expect(read(() => 30, 60)).toEqual(UNSURE);
    expect(read(() => 30, 90, 15)).toEqual(SURE);
  });
});

describe('what is straight in two holds', () => {
  /** A hold whose straight part was so steep, known to a twentieth. */
  const told = (paPerS: number, middleS: number) => {
    const at = Array.from({ length: 80 }, (_, n) => 0.0025 * n);
    const likelihoods = Float64Array.from(at, (leak) =>
      Math.exp(-0.5 * ((leak - paPerS) / 0.004) ** 2),
    );
    return leakTold(
      at,
      likelihoods,
      at.map(() => 1 / 80),
      middleS,
    );
  };
  const NODES = [0, 0.02, 0.04, 0.06, 0.08];
  const weightsAt = (paPerS: number) =>
    NODES.map((node) => Math.exp(-0.5 * ((node - paPerS) / 0.004) ** 2));
  const leakShare = (splits: ReturnType<typeof splitsOf>, n: number) =>
    (splits[n]?.parts ?? []).reduce(
      (sum, { leakShare: share, probability }) => sum + share * probability,
      0,
    );

  test('of one hold alone is all leak', () => {
    for (const split of splitsOf(NODES, weightsAt(0.04), [], 5000)) {
      expect(split).toEqual({ logLikelihood: 0, parts: [{ leakShare: 1, probability: 1 }] });
    }
  });

  test('as steep in both is all but surely leak, and about as likely as the earlier hold has it', () => {
    const earlier = told(0.04, 1000);
    const splits = splitsOf(NODES, weightsAt(0.04), [earlier], 5000);
    expect(leakShare(splits, 2)).toBeGreaterThan(0.99);
    expect(leakShare(splits, 2)).toBeLessThan(1);
    expect(splits[2]?.logLikelihood).toBeCloseTo(earlier.logLikelihoodAt(0.04), 1);
  });

  test('that was much steeper before is for the most part no leak', () => {
    const splits = splitsOf(NODES, weightsAt(0.04), [told(0.12, 1000)], 5000);
    expect(leakShare(splits, 2)).toBeLessThan(0.7);
    const parts = splits[2]?.parts ?? [];
    expect(parts).toHaveLength(21);
    expect(parts.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    expect(parts[0]?.leakShare).toBe(1);
    expect(parts[1]?.leakShare).toBe(0);
    expect(parts.at(-1)?.leakShare).toBeCloseTo(0.95, 12);
  });

  test('that slows can only have been steeper the longer ago', () => {
    const soon = leakShare(splitsOf(NODES, weightsAt(0.04), [told(0.08, 4000)], 5000), 2);
    const long = leakShare(splitsOf(NODES, weightsAt(0.04), [told(0.08, 1000)], 8000), 2);
    expect(long).toBeGreaterThan(soon);
  });
});

describe('the readings of a hold', () => {
  const samplesOf = (pressures: readonly number[]): Sample[] =>
    pressures.map((pressurePa, elapsedS) => ({ elapsedS, pressurePa, count: 1 }));
  const random = seeded(2);
  const usual = Array.from({ length: 60 }, (_, n) => 40 + 0.1 * n + 0.1 * normal(random));
  const changed = (changes: Readonly<Record<number, number>>) => {
    const at = (n: number) => (n < 0 ? 60 + n : n);
    const spikes = new Map(
      Object.entries(changes).map(([n, pressurePa]) => [at(Number(n)), pressurePa]),
    );
    return usual.map((pressurePa, n) => spikes.get(n) ?? pressurePa);
  };
  const kept = (changes: Readonly<Record<number, number>>) =>
    riseSamples(samplesOf(changed(changes))).map(({ elapsedS }) => elapsedS);
  const all = usual.map((_, n) => n);

  test('stay as they are where nothing stands out', () => {
    expect(kept({})).toEqual(all);
    expect(kept({ 30: 90 })).toEqual(all);
  });

  test('lose a spike at either end, or next to it, high or low', () => {
    for (const pressurePa of [90, 10]) {
      expect(kept({ 0: pressurePa })).toEqual(all.slice(1));
      expect(kept({ 1: pressurePa })).toEqual(all.filter((n) => n !== 1));
      expect(kept({ '-1': pressurePa })).toEqual(all.slice(0, -1));
      expect(kept({ '-2': pressurePa })).toEqual(all.filter((n) => n !== 58));
    }
    expect(kept({ 0: 90, 1: 95 })).toEqual(all.slice(2));
  });

  test('that are six or fewer are all kept', () => {
    expect(riseSamples(samplesOf([90, 40, 40, 40, 40, 40]))).toHaveLength(6);
    expect(riseSamples([])).toEqual([]);
  });

  const NOISE: Noise = {
    ...{ varianceAt: () => 0.01, whiteShare: 1, correlationS: 1 },
    stepsAt: (elapsedS) => ({ untilS: Infinity, stepPa: elapsedS / 1000, dwellS: 3 }),
  };
  const pointsOf = (samples: readonly Sample[], steps: Parameters<typeof risePoints>[3] = []) =>
    risePoints(samples, NOISE, 0, steps);
  const sampled = (from: number, to: number, stepS = 1): Sample[] =>
    Array.from({ length: Math.floor((to - from) / stepS) + 1 }, (_, n) => {
      const elapsedS = from + n * stepS;
      return { elapsedS, pressurePa: 40 + 0.1 * elapsedS, count: 1 };
    });

  test('are thinned into groups that grow with the time, none of them lost', () => {
    const points = pointsOf(sampled(1, 900));
    expect(points.reduce((sum, { count }) => sum + count, 0)).toBe(900);
    expect(points.length).toBeGreaterThan(50);
    expect(points.length).toBeLessThan(80);
    for (const [n, { heldS, pressurePa, widthS, count, stepPa, dwellS }] of points.entries()) {
      expect(pressurePa).toBeCloseTo(40 + 0.1 * heldS, 9);
      expect(heldS).toBeGreaterThan(points[n - 1]?.heldS ?? 0);
      // Readings a second apart are as wide as they are many.
      expect(widthS).toBeCloseTo(count, 9);
      expect(count).toBeLessThanOrEqual(Math.max(1.5, 0.07 * heldS) + 1);
      expect([stepPa, dwellS]).toEqual([expect.closeTo(heldS / 1000, 9), 3]);
    }
  });

  test('of either side of a silence or a jump are in no one group', () => {
    const silent = pointsOf([...sampled(1, 500), ...sampled(600, 700)]);
    expect(silent.every(({ heldS }) => heldS < 500.1 || heldS > 599.9)).toBe(true);
    const jumped = pointsOf(sampled(1, 900), [{ fromS: 449, toS: 450, sizePa: 5 }]);
    let before = 0;
    for (const { count } of jumped) {
      expect(before === 449 || !(before < 449 && before + count > 449)).toBe(true);
      before += count;
    }
    expect(jumped.length).toBeGreaterThan(pointsOf(sampled(1, 900)).length - 1);
    expect(pointsOf([])).toEqual([]);
    expect(pointsOf(sampled(5, 5))).toHaveLength(1);
  });
});

describe('what warmth does to a hold', () => {
  const points = Array.from({ length: 10 }, (_, n): RisePoint => ({
    ...{
      heldS: 60 * (n + 1),
      pressurePa: 40 + 10 * n,
      widthS: 10,
      count: 10,
      stepPa: 0,
      dwellS: 0,
    },
  }));
  const binsOf = (temperatureAt: (heldS: number) => number | null) =>
    Array.from({ length: 700 }, (_, heldS): TimeBin => ({
      ...{ elapsedS: 1000 + heldS, pressurePa: 40, count: 1, overRange: 0 },
      temperatureC: temperatureAt(heldS),
    }));

  test('by a thermometer: a share of it as water in balance, a share as water that comes, and the gauge’s zero', () => {
    // A kelvin a minute: n kelvin at the point n after the first.
    const { meanPa, shapesPa } = warmingOf(
      points,
      binsOf((heldS) => 20 + heldS / 60),
      1000,
    );
    expect(shapesPa).toHaveLength(3);
    const warmedK = points.map((_, n) => n);
    const balanced = points.map(({ pressurePa }, n) => 0.064 * pressurePa * (warmedK[n] ?? 0));
    let sum = 0;
    const coming = points.map((_, n) => (sum += n === 0 ? 0 : 0.064 * (warmedK[n] ?? 0) * 10));
    for (let n = 0; n < 10; n += 1) {
      const [b, c] = [balanced[n] ?? NaN, coming[n] ?? NaN];
      expect(meanPa[n]).toBeCloseTo(0.15 * b + 0.3 * c, 1);
      expect(shapesPa[0]?.[n]).toBeCloseTo(0.3 * b, 1);
      expect(shapesPa[1]?.[n]).toBeCloseTo(0.4 * c, 1);
      expect(shapesPa[2]?.[n]).toBeCloseTo(0.07 * n, 2);
    }
  });

  test('without one is nothing that is expected, and may be a kelvin an hour', () => {
    const { meanPa, shapesPa } = warmingOf(
      points,
      binsOf(() => null),
      1000,
    );
    expect([...meanPa].every((value) => value === 0)).toBe(true);
    expect(shapesPa).toHaveLength(2);
    const last = points[9];
    expect(shapesPa[0]?.[9]).toBeCloseTo(0.3 * 0.064 * (last?.pressurePa ?? 0) * (600 / 3600), 9);
    let coming = 0;
    for (let n = 1; n < 10; n += 1) coming += 0.064 * ((60 * (n + 1)) / 3600) * 10;
    expect(shapesPa[1]?.[9]).toBeCloseTo(Math.hypot(0.3, 0.4) * coming, 9);
  });

  test('is none at a steady temperature, and four readings of it are no thermometer', () => {
    const steady = warmingOf(
      points,
      binsOf(() => 21),
      1000,
    );
    expect(Math.max(...steady.meanPa.map(Math.abs))).toBeCloseTo(0, 9);
    expect(
      warmingOf(
        points,
        binsOf((heldS) => (heldS < 4 ? 21 : null)),
        1000,
      ).shapesPa,
    ).toHaveLength(2);
    expect(
      warmingOf(
        points,
        binsOf((heldS) => (heldS < 5 ? 21 : null)),
        1000,
      ).shapesPa,
    ).toHaveLength(3);
  });

  test('is smoothed over three quarters of a minute on either side', () => {
    const stepped = warmingOf(
      points,
      binsOf((heldS) => (heldS < 330 ? 20 : 22)),
      1000,
    );
    const zero = stepped.shapesPa[2] ?? new Float64Array();
    // At 300 s a third of the readings is from after the step, at 240 s none, at 420 s all.
    expect(zero[3]).toBeCloseTo(0, 9);
    expect((zero[4] ?? 0) / (0.07 * 2)).toBeCloseTo(16 / 91, 1);
    expect(zero[6]).toBeCloseTo(0.07 * 2, 9);
  });
});
