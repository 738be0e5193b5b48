/** What fits of curves promise: where they begin does not matter, nor the units, and what was not found is said. */
import {
  curveProblem,
  fitNonlinear,
} from '../../../../web/analysis/fitting/nonlinear-least-squares.ts';
import {
  fitSeparable,
  leastResidualAt,
  type SeparableProblem,
} from '../../../../web/analysis/fitting/separable-least-squares.ts';
import { describe, expect, test } from 'vitest';

const PLACES = Array.from({ length: 24 }, (_, n) => n / 2);
const decay = (x: number, [floor = 0, size = 0, rate = 0]: readonly number[]) =>
  floor + size * Math.exp(-rate * x);
const VALUES = PLACES.map((x) => decay(x, [2, 5, 0.7]) + 0.05 * Math.cos(9 * x));

function found(fit: ReturnType<typeof fitNonlinear>) {
  if (!fit.ok) throw new Error(fit.refusal);
  return fit;
}
const close = (one: number, other: number) => Math.abs(one / other - 1);

describe('a nonlinear fit', () => {
  const near = found(fitNonlinear(curveProblem(PLACES, VALUES, decay), [2, 5, 0.7]));

  test.each([
    ['far off', [1, 1, 0.1]],
    ['much too steep', [0, 1, 5]],
    ['of the other sign', [-3, -1, 1]],
  ])('is the same from a start that is %s', (_, start) => {
    const fit = found(fitNonlinear(curveProblem(PLACES, VALUES, decay), start));
    expect(fit).toMatchObject({ converged: true, ending: 'stationary', degreesOfFreedom: 21 });
    for (const [i, value] of fit.parameters.entries()) {
      expect(close(value, near.parameters[i] ?? 0)).toBeLessThan(1e-7);
    }
    expect(close(fit.residual, near.residual)).toBeLessThan(1e-9);
  });

  test('is least where it says, and as large as what is left there', () => {
    const sumAt = (parameters: readonly number[]) =>
      PLACES.reduce((sum, x, i) => sum + ((VALUES[i] ?? 0) - decay(x, parameters)) ** 2, 0);
    expect(close(near.residual, sumAt(near.parameters))).toBeLessThan(1e-12);
    for (const [i, deviation] of near.standardDeviations.entries()) {
      for (const sign of [-1, 1]) {
        const moved = near.parameters.map((value, k) => value + (k === i ? sign * deviation : 0));
        // By the residuals' own variance at least, since the others do not follow.
        const variance = near.residual / near.degreesOfFreedom;
        expect(sumAt(moved)).toBeGreaterThan(near.residual + 0.8 * variance);
      }
    }
  });

  test('of a straight line takes a few steps, whatever the units', () => {
    const line = (x: number, [a = 0, b = 0]: readonly number[]) => a + b * x;
    for (const unit of [1e-6, 1, 1e6]) {
      const values = PLACES.map((x) => unit * (3 + 2 * x + 0.1 * Math.cos(5 * x)));
      const fit = found(fitNonlinear(curveProblem(PLACES, values, line), [0, 0]));
      expect(fit.converged).toBe(true);
      expect(fit.evaluations).toBeLessThan(30);
      expect(Math.abs((fit.parameters[1] ?? 0) / unit - 2)).toBeLessThan(0.02);
      const [of = 0] = found(
        fitNonlinear(
          curveProblem(
            PLACES,
            values.map((y) => y / unit),
            line,
          ),
          [0, 0],
        ),
      ).standardDeviations;
      expect(close((fit.standardDeviations[0] ?? 0) / unit, of)).toBeLessThan(1e-6);
    }
  });

  test('of a curve of the usual kind is found in some tens of steps', () => {
    const fit = found(fitNonlinear(curveProblem(PLACES, VALUES, decay), [1, 1, 0.1]));
    expect(fit.evaluations).toBeLessThan(60);
  });

  test('says where no step helps and it is no optimum', () => {
    // A corner: from either side it goes down to it, and its slope is nowhere zero.
    const corner = (_: number, [a = 0]: readonly number[]) => Math.abs(a - 1) + 2;
    const fit = fitNonlinear(curveProblem([0, 1, 2], [0, 1, 2], corner), [3]);
    expect(fit.ok && fit.converged).toBe(false);
    expect(fit.ok && fit.ending).toBe('stalled');
    expect(fit.ok ? fit.parameters[0] : null).toBeCloseTo(1, 6);
  });

  test('with slopes that are given is that with difference quotients', () => {
    const problem = curveProblem(PLACES, VALUES, decay);
    const given = fitNonlinear(
      {
        ...problem,
        slopes: ([, size = 0, rate = 0], [floors, sizes, rates]) => {
          for (const [row, x] of PLACES.entries()) {
            const part = Math.exp(-rate * x);
            floors?.fill(-1);
            if (sizes) sizes[row] = -part;
            if (rates) rates[row] = size * x * part;
          }
        },
      },
      [1, 1, 0.1],
    );
    for (const [i, value] of found(given).parameters.entries()) {
      expect(close(value, near.parameters[i] ?? 0)).toBeLessThan(1e-7);
    }
  });
});

describe('a separable fit', () => {
  const problem: SeparableProblem = {
    values: VALUES,
    shapeCount: 2,
    shapes: ([rate = 0], [floor, fall]) => {
      floor?.fill(1);
      for (const [row, x] of PLACES.entries()) if (fall) fall[row] = Math.exp(-rate * x);
    },
  };
  const rateFrom = (start: number, of = problem) => {
    const fit = fitSeparable(of, [start]);
    if (!fit.ok) throw new Error(fit.refusal);
    return fit;
  };

  test('is the same from far off, and is refused from where its columns are one', () => {
    const { nonlinear, residual } = rateFrom(0.7);
    for (const start of [0.05, 0.3, 3]) {
      const fit = rateFrom(start);
      expect(fit.converged, `${start}`).toBe(true);
      expect(close(fit.nonlinear[0] ?? 0, nonlinear[0] ?? 0)).toBeLessThan(1e-7);
      expect(close(fit.residual, residual)).toBeLessThan(1e-9);
    }
    expect(fitSeparable(problem, [0])).toEqual({ ok: false, refusal: 'undetermined' });
  });

  test('has slopes by which it comes to its optimum in some tens of steps', () => {
    // Every look at another rate asks for the shapes once, and for their slopes four times.
    let asked = 0;
    rateFrom(0.05, {
      ...problem,
      shapes: (nonlinear, into) => {
        asked += 1;
        problem.shapes(nonlinear, into);
      },
    });
    expect(asked).toBeLessThan(200);
  });

  test('has no more left than any other rate leaves, where the linear ones follow', () => {
    const fit = rateFrom(0.05);
    const rates = Array.from({ length: 40 }, (_, n) => 0.05 * (n + 1));
    for (const rate of rates)
      expect(leastResidualAt(problem, [rate])).toBeGreaterThanOrEqual(fit.residual);
  });

  test('refuses a rate that moves the curve by less than its rounding', () => {
    // Beside a level of a million million, what the rate does lies beyond the thirteenth digit.
    const lost = { ...problem, values: PLACES.map((x) => 1e12 + 0.01 * Math.exp(-0.7 * x)) };
    expect(fitSeparable(lost, [0.5])).toEqual({ ok: false, refusal: 'undetermined' });
  });

  test('refuses a rate that nothing goes by', () => {
    // Level, but for what no rate explains.
    const level = { ...problem, values: PLACES.map(() => 3) };
    expect(fitSeparable(level, [0.4])).toEqual({ ok: false, refusal: 'undetermined' });
  });
});
