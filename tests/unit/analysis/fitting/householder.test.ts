/** The factorisation of tall matrices, against what it is a factorisation of. */
import { differenceQuotients } from '../../../../web/analysis/fitting/difference-quotients.ts';
import {
  factorise,
  lengthFrom,
  solveLeastSquares,
  solveLower,
  unitVariances,
} from '../../../../web/analysis/fitting/householder.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const ROWS = 6;
const anyColumn = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), {
  minLength: ROWS,
  maxLength: ROWS,
});
/** Three columns that are well apart: each has a row of its own. */
const anyColumns = fc.tuple(anyColumn, anyColumn, anyColumn).map((columns) =>
  columns.map((column, k) => {
    return Float64Array.from(column, (value, row) => (row === k ? 20 : value));
  }),
);
const product = (a: ArrayLike<number>, b: ArrayLike<number>) =>
  Array.from(a).reduce((sum, value, i) => sum + value * (b[i] ?? NaN), 0);

describe('the factors', () => {
  test('are the columns again: R turned back, in the order in which they were taken', () => {
    fc.assert(
      fc.property(anyColumns, (columns) => {
        const kept = columns.map((column) => [...column]);
        const { upper, order, rank, turnBack } = factorise(columns);
        expect(columns.map((column) => [...column])).toEqual(kept);
        expect(rank).toBe(3);
        expect([...order].sort()).toEqual([0, 1, 2]);
        for (const [k, column] of upper.entries()) {
          expect(column).toHaveLength(k + 1);
          const whole = new Float64Array(ROWS);
          whole.set(column);
          turnBack(whole);
          const given = columns[order[k] ?? NaN] ?? [];
          for (const [row, value] of whole.entries())
            expect(value).toBeCloseTo(given[row] ?? NaN, 9);
        }
      }),
    );
  });

  test('turn without stretching, and back again', () => {
    fc.assert(
      fc.property(anyColumns, anyColumn, (columns, values) => {
        const { turn, turnBack } = factorise(columns);
        const vector = Float64Array.from(values);
        turn(vector);
        expect(lengthFrom(vector, 0)).toBeCloseTo(lengthFrom(Float64Array.from(values), 0), 9);
        turnBack(vector);
        for (const [row, value] of vector.entries())
          expect(value).toBeCloseTo(values[row] ?? NaN, 9);
      }),
    );
  });

  test('take the longest first, by what is left of each', () => {
    const columns = [
      [1, 0, 0, 0],
      [9, 0.5, 0, 0],
      [0, 0, 3, 0],
    ].map((column) => Float64Array.from(column));
    expect(factorise(columns).order).toEqual([1, 2, 0]);
    const alike = [
      [0, 2],
      [2, 0],
    ].map((column) => Float64Array.from(column));
    expect(factorise(alike).order).toEqual([0, 1]);
  });

  test('of zeros are of no rank, and solve to nothing', () => {
    const none = factorise([new Float64Array(4), new Float64Array(4)]);
    expect(none.rank).toBe(0);
    expect(solveLeastSquares(none, Float64Array.of(1, 2, 3, 4))).toEqual([0, 0]);
    const one = factorise([new Float64Array(4), Float64Array.of(0, 0, 2, 0)]);
    expect(one.rank).toBe(1);
    const solution = solveLeastSquares(one, Float64Array.of(1, 2, 3, 4));
    expect(solution[0]).toBe(0);
    expect(solution[1]).toBeCloseTo(1.5, 12);
  });
});

describe('what they solve', () => {
  test('leaves a rest that no column reaches', () => {
    fc.assert(
      fc.property(anyColumns, anyColumn, (columns, values) => {
        const target = Float64Array.from(values);
        const solution = solveLeastSquares(factorise(columns), target);
        expect([...target]).toEqual(values);
        const rest = values.map(
          (value, row) =>
            value -
            columns.reduce((sum, column, i) => sum + (column[row] ?? 0) * (solution[i] ?? 0), 0),
        );
        for (const column of columns) expect(product(column, rest)).toBeCloseTo(0, 7);
      }),
    );
  });

  test('is the length of a gradient as the inverse of the normal matrix has it', () => {
    fc.assert(
      fc.property(anyColumns, anyColumn, (columns, values) => {
        // With b = Aᵀy, Rᵀz = b is the part of y that the columns reach, turned: of the same length.
        const factors = factorise(columns);
        const z = solveLower(
          factors,
          columns.map((column) => product(column, values)),
        );
        const turned = Float64Array.from(values);
        factors.turn(turned);
        for (const [k, value] of z.entries()) expect(value).toBeCloseTo(turned[k] ?? NaN, 8);
      }),
    );
  });

  test('has the variances of the inverse of the normal matrix', () => {
    fc.assert(
      fc.property(anyColumns, (columns) => {
        const variances = unitVariances(factorise(columns)) ?? [];
        expect(variances).toHaveLength(3);
        // Of what the others leave of each column.
        for (const [i, column] of columns.entries()) {
          const others = columns.filter((_, j) => j !== i);
          const best = solveLeastSquares(factorise(others), column);
          const left = [...column].map(
            (value, row) =>
              value - others.reduce((sum, other, j) => sum + (other[row] ?? 0) * (best[j] ?? 0), 0),
          );
          expect((variances[i] ?? NaN) * product(left, left)).toBeCloseTo(1, 7);
        }
      }),
    );
  });
});

test('difference quotients are the slopes, at small parameters, large ones and none', () => {
  const into = [new Float64Array(3), new Float64Array(3)];
  into[0]?.fill(99);
  const parameters = [0, 2000];
  differenceQuotients(
    ([a = NaN, b = NaN], values) => {
      values.set([Math.sin(a) * b, a ** 3 + 5 * a, b ** 2 / 1000]);
    },
    parameters,
    into,
  );
  expect(parameters).toEqual([0, 2000]);
  const expected = [
    [2000, 5, 0],
    [0, 0, 4],
  ];
  for (const [k, column] of into.entries()) {
    for (const [row, value] of column.entries())
      expect(value).toBeCloseTo(expected[k]?.[row] ?? NaN, 6);
  }
});
