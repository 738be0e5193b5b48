/** Our nonlinear fits beside a general-purpose library's, ml-levenberg-marquardt, on the same data. */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { describe, expect, test } from 'vitest';
import { curveProblem, fitNonlinear } from '../../web/analysis/fitting/nonlinear-least-squares.ts';
import { between, logBetween, normal, seeded } from '../support/invented-curves.ts';
import { CERTIFIED_NAMES, certifiedProblem, sharedDigits } from '../support/strd.ts';

interface Data {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly curve: (x: number, parameters: readonly number[]) => number;
  readonly start: readonly number[];
}

function sumOfSquares({ x, y, curve }: Data, parameters: readonly number[]): number {
  return y.reduce((sum, value, i) => sum + (value - curve(x[i] ?? 0, parameters)) ** 2, 0);
}

/** Theirs, with central differences and settings under which it does best; null where it gives up. */
function theirs(data: Data): { parameters: number[]; sum: number } | null {
  try {
    const { parameterValues } = levenbergMarquardt(
      { x: [...data.x], y: [...data.y] },
      (parameters) => (x) => data.curve(x, parameters),
      {
        initialValues: [...data.start],
        maxIterations: 500,
        errorTolerance: 1e-12,
        improvementThreshold: 0,
        centralDifference: true,
        gradientDifference: data.start.map((value) => 1e-4 * (Math.abs(value) || 1)),
      },
    );
    const sum = sumOfSquares(data, parameterValues);
    return Number.isFinite(sum) ? { parameters: parameterValues, sum } : null;
  } catch {
    return null; // It throws where its matrix becomes singular: that is its way of giving up.
  }
}

function ours(data: Data): { parameters: readonly number[]; sum: number } {
  const fit = fitNonlinear(curveProblem(data.x, data.y, data.curve), data.start);
  if (!fit.ok) throw new Error(fit.refusal);
  expect(fit.converged).toBe(true);
  return { parameters: fit.parameters, sum: sumOfSquares(data, fit.parameters) };
}

describe('NIST’s certified problems, from both starts', () => {
  const data = CERTIFIED_NAMES.flatMap((name) => {
    const { x, y, curve, start1, start2 } = certifiedProblem(name);
    return [start1, start2].map((start, i) => ({ name: `${name} ${i + 1}`, x, y, curve, start }));
  });

  test('ours is never worse, and the same where theirs arrives', () => {
    let arrived = 0;
    for (const problem of data) {
      const [own, other] = [ours(problem), theirs(problem)];
      if (other === null) continue;
      // Lanczos1's sum is rounding: 1e-25.
      expect(own.sum, problem.name).toBeLessThanOrEqual(other.sum * (1 + 1e-9) + 1e-24);
      if (other.sum > own.sum * (1 + 1e-8)) continue;
      arrived += 1;
      expect(sharedDigits(other.parameters, own.parameters), problem.name).toBeGreaterThan(3);
    }
    // A comparison in which the other hardly ever arrived would show nothing.
    expect(arrived).toBeGreaterThan(20);
  });
});

describe('curves like those of a job, with noise', () => {
  const random = seeded(41);

  test('a rise: start, steady inflow, one amount that levels off', () => {
    const data = Array.from({ length: 30 }, (): Data => {
      const truth = [
        between(random, 20, 60),
        logBetween(random, 0.005, 0.3),
        between(random, 20, 300),
        logBetween(random, 40, 500),
      ];
      return measured(truth, (t, [start = 0, leak = 0, amount = 0, tau = 1]) => {
        return start + leak * t + amount * (1 - Math.exp(-t / tau));
      });
    });
    compare(data);
  });

  test('a pull-down: an exponential fall towards a floor', () => {
    const data = Array.from({ length: 30 }, (): Data => {
      const truth = [
        between(random, 10, 100),
        between(random, 500, 2500),
        logBetween(random, 0.004, 0.05),
      ];
      return measured(
        truth,
        (t, [floor = 0, size = 0, rate = 0]) => floor + size * Math.exp(-rate * t),
      );
    });
    compare(data);
  });

  function measured(truth: readonly number[], curve: Data['curve']): Data {
    const x = Array.from({ length: 120 }, (_, i) => 5 * i);
    const sigma = logBetween(random, 0.05, 1);
    return {
      x,
      y: x.map((t) => curve(t, truth) + sigma * normal(random)),
      curve,
      start: truth.map((value) => value * between(random, 0.6, 1.6)),
    };
  }

  function compare(problems: readonly Data[]): void {
    let arrived = 0;
    for (const problem of problems) {
      const [own, other] = [ours(problem), theirs(problem)];
      if (other === null) continue;
      expect(own.sum).toBeLessThanOrEqual(other.sum * (1 + 1e-9));
      if (other.sum > own.sum * (1 + 1e-8)) continue;
      arrived += 1;
      expect(sharedDigits(other.parameters, own.parameters)).toBeGreaterThan(3);
    }
    expect(arrived).toBeGreaterThan(20);
  }
});
