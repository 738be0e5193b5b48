/** How likely an inflow is beforehand: a lump at none, and a density over the rest. */
import { leakPrior } from '../../../../web/analysis/rise/leak-prior.ts';
import { once } from '../../../support/once.ts';
import { describe, expect, test } from 'vitest';

const LIMIT = 0.01;
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
/** Ever wider nodes from none to two hundred times the limit. */
const NODES = [0, ...Array.from({ length: 900 }, (_, n) => 2e-5 * 1.0129 ** n)];
const below = (weights: readonly number[], leak: number) =>
  sum(weights.filter((_, n) => (NODES[n] ?? 0) < leak));

describe('the weights', () => {
  const steepest = 0.2;
  const found = once(() => leakPrior(NODES, LIMIT, steepest));

  test('are a distribution, with two fifths for no inflow at all', () => {
    const weights = found();
    expect(Math.max(...NODES)).toBeGreaterThan(200 * LIMIT);
    expect(sum(weights)).toBeGreaterThan(0.98);
    expect(sum(weights)).toBeLessThan(1.02);
    expect(weights[0]).toBeGreaterThan(0.4);
    expect(weights[0]).toBeLessThan(0.401);
  });

  test('are those of a density ∝ 1/(L + a fifth of the limit), and of an even one up to the whole rise', () => {
    const weights = found();
    for (const leak of [0.005, 0.02, 0.1, 0.2, 0.6]) {
      const tail = Math.log(1 + leak / (0.2 * LIMIT)) / Math.log(1001);
      const even = Math.min(leak / steepest, 1);
      const expected = 0.4 + 0.6 * (0.6 * tail + 0.4 * even);
      expect(below(weights, leak)).toBeCloseTo(expected, 2);
    }
  });

  test('of a steeper rise are spread over more', () => {
    const weights = found();
    const steeper = leakPrior(NODES, LIMIT, 2 * steepest);
    expect(below(steeper, 0.1)).toBeLessThan(below(weights, 0.1));
    expect(steeper.every((weight) => weight > 0)).toBe(true);
  });
});

test('go by shares of the limit alone', () => {
  const weights = leakPrior([0, 0.01, 0.02, 0.05], LIMIT, 0.04);
  const ten = leakPrior([0, 0.1, 0.2, 0.5], 10 * LIMIT, 0.4);
  for (const [n, weight] of weights.entries()) expect(ten[n]).toBeCloseTo(weight, 12);
});
