import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  holding,
  normalEquations,
  solveNonnegative,
} from '../../../web/analysis/nonnegative-least-squares.ts';

const number = fc.double({ min: -10, max: 10, noNaN: true });
const problem = fc.record({
  columns: fc.array(fc.array(number, { minLength: 8, maxLength: 8 }), {
    minLength: 4,
    maxLength: 4,
  }),
  values: fc.array(number, { minLength: 8, maxLength: 8 }),
});
const ones = new Array<number>(8).fill(1);
const free = [true, false, false, false];

const residualOf = (columns: number[][], values: number[], x: readonly number[]) =>
  values.reduce((sum, value, row) => {
    const model = columns.reduce((total, column, i) => total + (column[row] ?? 0) * (x[i] ?? 0), 0);
    return sum + (value - model) ** 2;
  }, 0);

test('no other allowed set of coefficients fits better', () => {
  const nudge = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
    minLength: 4,
    maxLength: 4,
  });
  fc.assert(
    fc.property(problem, nudge, ({ columns, values }, step) => {
      const { coefficients } = solveNonnegative(normalEquations(columns, values, ones), free);
      expect(coefficients.slice(1).every((value) => value >= 0)).toBe(true);
      const other = coefficients.map((value, i) =>
        i === 0 ? value + (step[i] ?? 0) : Math.max(value + (step[i] ?? 0), 0),
      );
      const [least, less] = [coefficients, other].map((x) => residualOf(columns, values, x));
      expect(least).toBeLessThanOrEqual((less ?? 0) + 1e-5);
    }),
  );
});

test('where to begin changes nothing', () => {
  fc.assert(
    fc.property(problem, fc.array(number, { minLength: 4, maxLength: 4 }), (given, like) => {
      const equations = normalEquations(given.columns, given.values, ones);
      const cold = solveNonnegative(equations, free).residual;
      // Of sums of squares up to 800, from normal equations of columns that may be all but parallel.
      expect(solveNonnegative(equations, free, like).residual).toBeCloseTo(cold, 4);
    }),
  );
});

test('holding a coefficient at its own best value changes no other', () => {
  const columns = [ones, [0, 1, 2, 3, 4, 5, 6, 7], [0, 1, 4, 9, 16, 25, 36, 49]];
  const values = [1, 3, 9, 18, 33, 52, 72, 99];
  const equations = normalEquations(columns, values, ones);
  const { coefficients, residual } = solveNonnegative(equations, [true, false, false]);
  const held = solveNonnegative(holding(equations, 2)(coefficients[2] ?? 0), [true, false]);
  expect(held.residual).toBeCloseTo(residual, 8);
  expect(held.coefficients[1]).toBeCloseTo(coefficients[1] ?? 0, 6);
});
