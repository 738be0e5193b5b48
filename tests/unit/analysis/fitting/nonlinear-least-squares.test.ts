import {
  factorise,
  solveLeastSquares,
  unitVariances,
} from '../../../../web/analysis/fitting/householder.ts';
import {
  curveProblem,
  fitNonlinear,
} from '../../../../web/analysis/fitting/nonlinear-least-squares.ts';
import {
  fitSeparable,
  leastResidualAt,
  type SeparableProblem,
} from '../../../../web/analysis/fitting/separable-least-squares.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const PLACES = [0, 1, 2, 3, 4, 5, 6, 7];

describe('a nonlinear fit', () => {
  const decay = (x: number, [size = 0, rate = 0]: readonly number[]) => size * Math.exp(-rate * x);

  test('finds a curve without noise, and says that nothing is left but rounding', () => {
    const values = PLACES.map((x) => decay(x, [3, 0.4]));
    const fit = fitNonlinear(curveProblem(PLACES, values, decay), [1, 1]);
    expect(fit).toMatchObject({ ok: true, converged: true, ending: 'exact' });
    if (!fit.ok) return;
    expect(fit.parameters[0]).toBeCloseTo(3, 10);
    expect(fit.parameters[1]).toBeCloseTo(0.4, 10);
  });

  test('gives standard deviations that hold the truth as often as they should', () => {
    // Triangular noise of known variance; two thirds within one deviation, or nearly.
    let within = 0;
    for (let turn = 0; turn < 200; turn += 1) {
      const values = PLACES.map(
        (x, i) => decay(x, [3, 0.4]) + 0.02 * Math.sin(1e4 * (turn + 1) * (i + 1.3)),
      );
      const fit = fitNonlinear(curveProblem(PLACES, values, decay), [2, 0.3]);
      if (!fit.ok) throw new Error(fit.refusal);
      if (Math.abs((fit.parameters[1] ?? 0) - 0.4) < (fit.standardDeviations[1] ?? 0)) within += 1;
    }
    expect(within).toBeGreaterThan(110);
    expect(within).toBeLessThan(160);
  });

  test('refuses what has no more values than parameters', () => {
    const fit = fitNonlinear(curveProblem([0, 1], [3, 2], decay), [1, 1]);
    expect(fit).toEqual({ ok: false, refusal: 'too_few' });
  });

  test.each([
    ['a start that is no number', [Number.NaN, 1], 1],
    ['a value that is none', [1, 1], Number.NaN],
    ['a value beyond all bounds', [1, 1], Infinity],
  ])('refuses %s', (_, start, value) => {
    const values = [value, ...PLACES.slice(1).map((x) => decay(x, [3, 0.4]))];
    const fit = fitNonlinear(curveProblem(PLACES, values, decay), start);
    expect(fit).toEqual({ ok: false, refusal: 'not_finite' });
  });

  test('refuses two parameters that only their product shows', () => {
    const curve = (x: number, [a = 0, b = 0]: readonly number[]) => a * b * x;
    const fit = fitNonlinear(curveProblem(PLACES, [0, 1, 2, 3, 4.1, 5, 6, 7], curve), [1, 1]);
    expect(fit).toEqual({ ok: false, refusal: 'undetermined' });
  });

  test('steps back from where the curve is no number', () => {
    const curve = (x: number, [a = 0, b = 0]: readonly number[]) => a + Math.sqrt(b - x);
    const values = PLACES.map((x) => curve(x, [2, 7.5]) + 0.01 * (x % 2));
    const fit = fitNonlinear(curveProblem(PLACES, values, curve), [0, 40]);
    expect(fit).toMatchObject({ ok: true, converged: true });
    if (fit.ok) expect(fit.parameters[1]).toBeCloseTo(7.5, 1);
  });

  test('of any numbers whatever is a fit of finite numbers or a refusal', () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(
        fc.array(any, { minLength: 3, maxLength: 12 }),
        fc.tuple(any, any),
        (values, start) => {
          const places = values.map((_, i) => i);
          const fit = fitNonlinear(curveProblem(places, values, decay), start);
          if (!fit.ok) return;
          const numbers = [...fit.parameters, ...fit.standardDeviations, fit.residual];
          expect(numbers.every(Number.isFinite)).toBe(true);
        },
      ),
      { numRuns: 200, seed: 5 },
    );
  });
});

describe('a separable fit', () => {
  const problemOf = (values: readonly number[], places: readonly number[]): SeparableProblem => ({
    values,
    shapeCount: 2,
    shapes: ([rate = 0], [floor = new Float64Array(), fall = new Float64Array()]) => {
      floor.fill(1);
      for (const [row, place] of places.entries()) fall[row] = Math.exp(-rate * place);
    },
  });
  const values = PLACES.map((x) => 2 + 5 * Math.exp(-0.7 * x) + 0.01 * Math.cos(9 * x));

  test('is the joint fit of all parameters', () => {
    const joint = fitNonlinear(
      curveProblem(PLACES, values, (x, [floor = 0, size = 0, rate = 0]) => {
        return floor + size * Math.exp(-rate * x);
      }),
      [1, 1, 1],
    );
    const separate = fitSeparable(problemOf(values, PLACES), [0.1]);
    if (!joint.ok || !separate.ok) throw new Error('both find it');
    for (const [i, value] of [...separate.linear, ...separate.nonlinear].entries()) {
      expect(value).toBeCloseTo(joint.parameters[i] ?? 0, 8);
    }
    const deviations = [...separate.linearDeviations, ...separate.nonlinearDeviations];
    for (const [i, value] of deviations.entries()) {
      expect(value / (joint.standardDeviations[i] ?? 0)).toBeCloseTo(1, 6);
    }
  });

  test('has its least residual where it says', () => {
    const fit = fitSeparable(problemOf(values, PLACES), [3]);
    if (!fit.ok) throw new Error(fit.refusal);
    const [rate = 0] = fit.nonlinear;
    expect(leastResidualAt(problemOf(values, PLACES), [rate])).toBeCloseTo(fit.residual, 12);
    for (const factor of [0.99, 1.01]) {
      expect(leastResidualAt(problemOf(values, PLACES), [rate * factor])).toBeGreaterThan(
        fit.residual,
      );
    }
  });

  test('refuses a curve that has nothing of its shape', () => {
    expect(fitSeparable(problemOf([1, 1, 1, 1, 1, 1, 1, 1], PLACES), [1])).toEqual({
      ok: false,
      refusal: 'undetermined',
    });
    expect(fitSeparable(problemOf([1, 2, 3], [0, 1, 2]), [1])).toEqual({
      ok: false,
      refusal: 'too_few',
    });
  });
});

describe('the factorisation', () => {
  test('leaves columns that depend on others out, and has no variances for them', () => {
    const one = Float64Array.from([1, 1, 1, 1]);
    const ramp = Float64Array.from([0, 1, 2, 3]);
    const both = one.map((value, i) => value + 2 * (ramp[i] ?? 0));
    const factors = factorise([one, ramp, both]);
    expect(factors.rank).toBe(2);
    expect(unitVariances(factors)).toBeNull();
    const [a = 0, b = 0, c = 0] = solveLeastSquares(factors, Float64Array.from([5, 7, 9, 11]));
    expect(a + c).toBeCloseTo(5, 12);
    expect(b + 2 * c).toBeCloseTo(2, 12);
  });

  test('gives the variances of a mean and of a slope', () => {
    const ramp = Float64Array.from([-3, -1, 1, 3]);
    const variances = unitVariances(factorise([Float64Array.from([1, 1, 1, 1]), ramp]));
    expect(variances?.[0]).toBeCloseTo(1 / 4, 12);
    expect(variances?.[1]).toBeCloseTo(1 / 20, 12);
  });
});
