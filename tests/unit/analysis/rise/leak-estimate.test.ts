/** From weights at some inflows to an inflow with its interval; what was believed before, and what one hold tells another. */
import { LeakWeights } from '../../../../web/analysis/rise/leak-estimate.ts';
import { leakPrior } from '../../../../web/analysis/rise/leak-prior.ts';
import { leakTold } from '../../../../web/analysis/rise/leak-told.ts';
import { describe, expect, test } from 'vitest';

/** Weights of a normal distribution on an even grid, and that of no inflow at all. */
function bell(middle: number, sigma: number, none = 0): LeakWeights {
  const weights = new LeakWeights();
  const stepPaPerS = sigma / 20;
  const first = Math.max(Math.round((middle - 6 * sigma) / stepPaPerS), 1);
  let total = 0;
  for (let n = first; n * stepPaPerS <= middle + 6 * sigma; n += 1) {
    const weight = Math.exp(-0.5 * ((n * stepPaPerS - middle) / sigma) ** 2);
    weights.add(weights.placeOf(n * stepPaPerS), weight);
    total += weight;
  }
  weights.add(weights.placeOf(0), (none / (1 - none)) * total);
  return weights;
}

describe('an inflow', () => {
  test('is its mean, and the interval holds nine tenths and the share by which no model is true', () => {
    const { leakPaPerS } = bell(0.1, 0.001).told(1);
    expect(leakPaPerS.estimate).toBeCloseTo(0.1, 6);
    // Five per cent lie 1.645 deviations below, 3.5 per cent 1.812 above. What is too slow for a bend to show is 9 per
    // cent of it, and no inflow is steadier than 5 per cent: 1.645 of each. Both halves are by 3 per cent wider than that.
    const lowHalf = 1.03 * Math.hypot(1.645 * 0.001, 1.645 * 0.09 * 0.1);
    const highHalf = 1.03 * Math.hypot(1.812 * 0.001, 1.645 * 0.05 * 0.1);
    expect(0.1 - leakPaPerS.low).toBeCloseTo(lowHalf, 5);
    expect(leakPaPerS.high - 0.1).toBeCloseTo(highHalf, 5);
  });

  test('that the readings tell little of is as wide as they leave it', () => {
    const { leakPaPerS } = bell(0.1, 0.015).told(1);
    expect(0.1 - leakPaPerS.low).toBeCloseTo(1.03 * Math.hypot(1.645 * 0.015, 0.014805), 3);
    expect(leakPaPerS.high - 0.1).toBeCloseTo(1.03 * Math.hypot(1.812 * 0.015, 0.008225), 3);
  });

  test('that several holds told is no surer by what the model has wrong in all of them', () => {
    const { leakPaPerS } = bell(0.1, 0.015).told(2);
    expect(0.1 - leakPaPerS.low).toBeCloseTo(1.2 * Math.hypot(1.645 * 0.015, 0.014805), 3);
    expect(leakPaPerS.high - 0.1).toBeCloseTo(1.2 * Math.hypot(1.812 * 0.015, 0.008225), 3);
  });

  test('is nothing from below where there may be none, and the end above counts few of those', () => {
    const { leakPaPerS } = bell(0.1, 0.001, 0.5).told(1);
    expect(leakPaPerS.low).toBe(0);
    expect(leakPaPerS.estimate).toBeCloseTo(0.05, 6);
    expect(leakPaPerS.high).toBeGreaterThan(0.1013);
    // A fifth of the weight of no inflow is left at that end: 3.5 of 60 hundredths of all lie above, 4.2 of the bell, 1.728 deviations.
    const reach = 0.1 + 1.728 * 0.001 - 0.05;
    expect(leakPaPerS.high).toBeCloseTo(0.05 + 1.03 * Math.hypot(reach, 1.645 * 0.05 * 0.05), 4);
  });

  test('is never below zero, and the estimate never outside of its interval', () => {
    for (const none of [0, 0.01, 0.3, 0.9, 0.999]) {
      const { leakPaPerS } = bell(0.002, 0.002, none).told(1);
      expect(leakPaPerS.low).toBeGreaterThanOrEqual(0);
      expect(leakPaPerS.estimate).toBeGreaterThanOrEqual(leakPaPerS.low);
      expect(leakPaPerS.high).toBeGreaterThanOrEqual(leakPaPerS.estimate);
    }
  });

  test('of no weight but at zero is none', () => {
    const weights = new LeakWeights();
    weights.add(weights.placeOf(0), 3);
    const { leakPaPerS, leakAbove } = weights.told(1);
    expect(leakPaPerS).toEqual({ estimate: 0, low: 0, high: 0 });
    expect(leakAbove(0)).toBe(0);
  });
});

describe('the probability that it is above a limit', () => {
  test('is the share of the weight there, each weight even over its cell', () => {
    const weights = new LeakWeights();
    for (const leak of [3, 1, 2]) weights.add(weights.placeOf(leak), 1);
    const { leakAbove } = weights.told(1);
    // Cells: 0.5 to 1.5, 1.5 to 2.5, 2.5 to 3.
    expect(leakAbove(0)).toBeCloseTo(1, 12);
    expect(leakAbove(0.5)).toBeCloseTo(1, 12);
    expect(leakAbove(1)).toBeCloseTo(5 / 6, 12);
    expect(leakAbove(1.5)).toBeCloseTo(2 / 3, 12);
    expect(leakAbove(2.25)).toBeCloseTo(1 / 3 + 1 / 12, 12);
    expect(leakAbove(2.75)).toBeCloseTo(1 / 6, 12);
    expect(leakAbove(3)).toBe(0);
  });

  test('never counts no inflow', () => {
    const { leakAbove } = bell(0.1, 0.001, 0.25).told(1);
    expect(leakAbove(1e-9)).toBeCloseTo(0.75, 6);
    expect(leakAbove(0.1)).toBeCloseTo(0.375, 6);
    expect(leakAbove(0.2)).toBe(0);
  });

  test('does not depend on the order or the parts in which weights come', () => {
    const [one, other] = [new LeakWeights(), new LeakWeights()];
    for (const [leak, weight] of [
      [0.5, 2],
      [1, 3],
      [2, 1],
    ] as const)
      one.add(one.placeOf(leak), weight);
    for (const [leak, weight] of [
      [2, 1],
      [1, 1],
      [0.5, 2],
      [1, 2],
    ] as const)
      other.add(other.placeOf(leak), weight);
    expect(other.told(1).leakPaPerS).toEqual(one.told(1).leakPaPerS);
    expect(other.told(1).leakAbove(0.9)).toBe(one.told(1).leakAbove(0.9));
    expect(one.placeOf(0.5)).toBe(one.placeOf(0.5));
  });
});

describe('what is believed of an inflow before anything was read', () => {
  const LIMIT = 0.01;
  const STEEPEST = 0.5;
  const nodes = [0, ...Array.from({ length: 4000 }, (_, n) => 1e-6 * 1.0045 ** n)].filter(
    (leak) => leak <= 200.2 * LIMIT,
  );
  const prior = leakPrior(nodes, LIMIT, STEEPEST);
  const between = (from: number, to: number) =>
    prior.reduce(
      (sum, weight, n) => ((nodes[n] ?? 0) > from && (nodes[n] ?? 0) <= to ? sum + weight : sum),
      0,
    );

  test('adds up to one, two fifths of it at no inflow', () => {
    expect(prior.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 2);
    expect(prior[0]).toBeCloseTo(0.4, 3);
    expect(prior.every((weight) => weight > 0)).toBe(true);
  });

  test('is as much in each order of magnitude, and two fifths of the rest even up to what would make all of the rise', () => {
    const smallest = 0.2 * LIMIT;
    const perLog = (0.6 * 0.6) / Math.log((200 * LIMIT + smallest) / smallest);
    const logPart = (from: number, to: number) =>
      perLog * Math.log((to + smallest) / (from + smallest));
    expect(between(1, 2)).toBeCloseTo(logPart(1, 2), 3);
    const even = (0.6 * 0.4 * (0.4 - 0.1)) / STEEPEST;
    expect(between(0.1, 0.4)).toBeCloseTo(logPart(0.1, 0.4) + even, 2);
    expect(between(0, 0.01)).toBeCloseTo(logPart(0, 0.01) + (0.24 * 0.01) / STEEPEST, 3);
  });
});

describe('what a hold tells of the inflow', () => {
  const told = leakTold([0, 1, 3], Float64Array.of(1, Math.E, Math.E ** 5), [0.5, 0.25, 0.25], 700);

  test('is its likelihood at the inflows, and straight in its logarithm between and beyond', () => {
    const at = (leak: number) => told.logLikelihoodAt(leak);
    for (const [leak, log] of [
      [0, 0],
      [1, 1],
      [3, 5],
    ] as const) {
      expect(at(leak)).toBeCloseTo(log, 12);
    }
    expect(at(0.5)).toBeCloseTo(0.5, 12);
    expect(at(2)).toBeCloseTo(3, 12);
    expect(at(4)).toBeCloseTo(7, 12);
    expect(at(-1)).toBeCloseTo(-1, 12);
  });

  test('comes with where it changes, what was believed, and when it was', () => {
    expect(told).toMatchObject({ atPaPerS: [0, 1, 3], priors: [0.5, 0.25, 0.25], middleS: 700 });
  });

  test('is finite where nothing speaks for an inflow', () => {
    const none = leakTold([0, 1], Float64Array.of(1, 0), [0.5, 0.5], 0);
    expect(none.logLikelihoodAt(1)).toBeLessThan(-600);
    expect(Number.isFinite(none.logLikelihoodAt(1))).toBe(true);
  });
});
