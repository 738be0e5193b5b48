import {
  holding,
  normalEquations,
  solveNonnegative,
} from '../../../../web/analysis/fitting/nonnegative-least-squares.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

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

/** The least part of a column that those before it leave of it (Gram–Schmidt), as a share of its length. */
function leastApart(columns: readonly (readonly number[])[]): number {
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
  const before: (readonly number[])[] = [];
  const apart = columns.map((column) => {
    const left = before.reduce((rest: readonly number[], unit) => {
      const along = dot(rest, unit);
      return rest.map((value, i) => value - along * (unit[i] ?? 0));
    }, column);
    const [length, all] = [Math.sqrt(dot(left, left)), Math.sqrt(dot(column, column))];
    before.push(left.map((value) => value / Math.max(length, 1e-300)));
    return all > 0 ? length / all : 0;
  });
  return Math.min(...apart);
}

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
      // Of columns that are all but parallel one is left out, and which one goes by where it begins.
      fc.pre(leastApart(given.columns) > 1e-3);
      const equations = normalEquations(given.columns, given.values, ones);
      const cold = solveNonnegative(equations, free).residual;
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

describe('weights', () => {
  test('count a reading as so many alike', () => {
    const columns = [
      [1, 1, 1, 1],
      [0, 1, 2, 4],
    ];
    const [values, weights] = [
      [1, 2, 2, 7],
      [1, 3, 2, 1],
    ];
    const often = (list: readonly number[]) =>
      list.flatMap((value, i) => new Array<number>(weights[i] ?? 0).fill(value));
    const repeated = normalEquations(columns.map(often), often(values), often([1, 1, 1, 1]));
    const weighted = normalEquations(columns, values, weights);
    expect([...weighted.gram]).toEqual([...repeated.gram]);
    expect([...weighted.moments]).toEqual([...repeated.moments]);
    expect(weighted.total).toBe(repeated.total);
  });

  test('of nothing leave a reading out', () => {
    const line = [
      [1, 1, 1],
      [0, 1, 2],
    ];
    const fit = solveNonnegative(normalEquations(line, [3, 5, 100], [1, 1, 0]), [true, true]);
    expect(fit.coefficients[0]).toBeCloseTo(3, 9);
    expect(fit.coefficients[1]).toBeCloseTo(2, 9);
    expect(fit.residual).toBeCloseTo(0, 9);
  });
});

test('holding any one of the coefficients at any value is the problem of the others', () => {
  fc.assert(
    fc.property(problem, fc.nat(3), number, ({ columns, values }, index, value) => {
      const held = holding(normalEquations(columns, values, ones), index)(value);
      const rest = values.map((each, row) => each - (columns[index]?.[row] ?? 0) * value);
      const others = columns.filter((_, i) => i !== index);
      const expected = normalEquations(others, rest, ones);
      expect(held.gram).toHaveLength(9);
      for (const [at, each] of expected.gram.entries()) expect(held.gram[at]).toBeCloseTo(each, 6);
      for (const [at, each] of expected.moments.entries())
        expect(held.moments[at]).toBeCloseTo(each, 6);
      expect(held.total).toBeCloseTo(expected.total, 6);
    }),
  );
});

describe('the least sum', () => {
  /** The best of all choices of coefficients that are not 0, each by elimination. */
  function bruteForce({ gram, moments, total }: ReturnType<typeof normalEquations>): number {
    const size = moments.length;
    let least = total;
    for (let chosen = 1; chosen < 2 ** size; chosen += 1) {
      const members = [...moments.keys()].filter((i) => (chosen >> i) % 2 === 1);
      const rows = members.map((i) => [
        ...members.map((j) => gram[i * size + j] ?? 0),
        moments[i] ?? 0,
      ]);
      const found = eliminated(rows);
      if (found === null || found.some((value, a) => value < 0 && members[a] !== 0)) continue;
      const gain = found.reduce(
        (sum, value, a) => sum + value * (moments[members[a] ?? 0] ?? 0),
        0,
      );
      least = Math.min(least, total - gain);
    }
    return least;
  }

  function eliminated(rows: number[][]): number[] | null {
    for (const [k, row] of rows.entries()) {
      const pivot = row[k] ?? 0;
      if (Math.abs(pivot) < 1e-6) return null;
      for (const [i, other] of rows.entries()) {
        if (i === k) continue;
        const share = (other[k] ?? 0) / pivot;
        for (const [j, value] of row.entries()) other[j] = (other[j] ?? 0) - share * value;
      }
    }
    return rows.map((row, k) => (row.at(-1) ?? 0) / (row[k] ?? 1));
  }

  test('is that of the best choice of coefficients, of all choices', () => {
    fc.assert(
      fc.property(problem, ({ columns, values }) => {
        const equations = normalEquations(columns, values, ones);
        const { residual } = solveNonnegative(equations, free);
        expect(residual).toBeLessThanOrEqual(bruteForce(equations) + 1e-4);
      }),
    );
  });

  test('needs nothing of a column of zeros, nor of one that another already is', () => {
    const columns = [
      ones,
      ones.map(() => 0),
      [0, 1, 2, 3, 4, 5, 6, 7],
      [0, 2, 4, 6, 8, 10, 12, 14],
    ];
    const values = [1, 2, 3, 4, 5, 6, 7, 8];
    const { coefficients, residual } = solveNonnegative(normalEquations(columns, values, ones), [
      true,
      false,
      false,
      false,
    ]);
    expect(residual).toBeCloseTo(0, 6);
    expect(coefficients[1]).toBe(0);
    expect((coefficients[2] ?? 0) + 2 * (coefficients[3] ?? 0)).toBeCloseTo(1, 6);
  });

  test('takes out again what was taken in first, and only that', () => {
    // The first column alone fits best; beside the other two it would have to be negative.
    const columns = [
      [1, 1],
      [1, 0],
      [0, 1],
    ];
    const equations = normalEquations(columns, [3, 2.5], [1, 1]);
    const { coefficients, residual } = solveNonnegative(equations, [false, false, false]);
    expect(residual).toBeCloseTo(0, 9);
    expect((coefficients[0] ?? 0) + (coefficients[1] ?? 0)).toBeCloseTo(3, 6);
    expect((coefficients[0] ?? 0) + (coefficients[2] ?? 0)).toBeCloseTo(2.5, 6);
  });

  test('is the same after a larger problem and after a smaller one', () => {
    const small = normalEquations([ones], [1, 2, 3, 4, 5, 6, 7, 8], ones);
    const many = Array.from({ length: 20 }, (_, k) => ones.map((_one, i) => Math.cos(k * i)));
    const large = normalEquations(many, [1, 0, 2, 0, 3, 0, 4, 0], ones);
    const before = solveNonnegative(small, [true]);
    const free20 = many.map(() => true);
    expect(solveNonnegative(large, free20).coefficients).toHaveLength(20);
    expect(solveNonnegative(small, [true])).toEqual(before);
    expect(before.coefficients[0]).toBeCloseTo(4.5, 12);
    expect(before.residual).toBeCloseTo(42, 9);
  });
});

describe('columns that are nearly alike, as decays are', () => {
  const times = Array.from({ length: 40 }, (_, i) => 10 * (i + 1));
  const columns = [
    times.map(() => 1),
    ...[20, 50, 120, 300, 700].map((tauS) => times.map((t) => 1 - Math.exp(-t / tauS))),
    times.map((t) => t / 400),
  ];
  const anyRise = fc.record({
    sizes: fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 7, maxLength: 7 }),
    noise: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
      minLength: times.length,
      maxLength: times.length,
    }),
    like: fc.array(fc.constantFrom(0, 1), { minLength: 7, maxLength: 7 }),
  });

  test('come to rest where no single one could gain any more', () => {
    const isFree = columns.map((_, i) => i === 0);
    fc.assert(
      fc.property(anyRise, ({ sizes, noise, like }) => {
        const values = times.map((_, row) =>
          sizes.reduce((sum, size, i) => sum + size * (columns[i]?.[row] ?? 0), noise[row] ?? 0),
        );
        const equations = normalEquations(columns, values, new Array<number>(40).fill(1));
        const { coefficients, residual } = solveNonnegative(equations, isFree, like);
        const left = values.map(
          (value, row) =>
            value - coefficients.reduce((sum, c, i) => sum + c * (columns[i]?.[row] ?? 0), 0),
        );
        expect(left.reduce((sum, value) => sum + value ** 2, 0)).toBeCloseTo(residual, 4);
        for (const [i, column] of columns.entries()) {
          const slope = column.reduce((sum, value, row) => sum + value * (left[row] ?? 0), 0);
          const coefficient = coefficients[i] ?? NaN;
          if (i > 0) expect(coefficient).toBeGreaterThanOrEqual(0);
          if (i === 0 || coefficient > 0) expect(Math.abs(slope)).toBeLessThan(1e-3);
          else expect(slope).toBeLessThan(1e-3);
        }
      }),
      { numRuns: 200 },
    );
  });
});
