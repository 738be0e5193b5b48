/** A parabola with one hinge, against plain least squares at each place. */
import { HingeFitter } from '../../../../web/analysis/fitting/hinge-fit.ts';
import { factorise, solveLeastSquares } from '../../../../web/analysis/fitting/householder.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const COUNT = 24;
const X = Array.from({ length: COUNT }, (_, i) => (i / (COUNT - 1)) ** 1.2);

function fitterOf(values: readonly number[], room = COUNT): HingeFitter {
  const fitter = new HingeFitter(room);
  fitter.x.set(X);
  fitter.y.set(values);
  fitter.prepare(COUNT);
  return fitter;
}

/** What such columns leave of the values, and the coefficient of the last. */
function left(values: readonly number[], hinge: readonly number[] | null) {
  const columns = [X.map(() => 1), X, X.map((x) => x * x), ...(hinge === null ? [] : [hinge])];
  const arrays = columns.map((column) => Float64Array.from(column));
  const solution = solveLeastSquares(factorise(arrays), Float64Array.from(values));
  const fitted = X.map((_, i) =>
    columns.reduce((sum, column, k) => sum + (column[i] ?? 0) * (solution[k] ?? 0), 0),
  );
  const square = values.reduce((sum, value, i) => sum + (value - (fitted[i] ?? 0)) ** 2, 0);
  return { square, size: solution[3] ?? 0, fitted };
}

const sharp = (place: number) => X.map((x) => Math.max(x - (X[place] ?? 0), 0));
const gentle = (place: number, halfWidth: number) =>
  X.map((x) => {
    const beyond = x - (X[place] ?? 0);
    if (beyond >= halfWidth) return beyond;
    return beyond <= -halfWidth ? 0 : (beyond + halfWidth) ** 2 / (4 * halfWidth);
  });

const scattered = (seed: number) => {
  const random = seeded(seed);
  return X.map((x) => 3 - 2 * x + x * x + Math.max(x - 0.5, 0) + 0.1 * normal(random));
};

describe('the place of a hinge', () => {
  test('is that at which plain least squares leave least, for either way', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 10_000 }),
        fc.constantFrom(1 as const, -1 as const),
        (seed, sign) => {
          const values = scattered(seed);
          const fitter = fitterOf(values);
          const whole = left(values, null);
          expect(fitter.rest).toBeCloseTo(whole.square, 9);
          const all = Array.from({ length: COUNT - 6 }, (_, n) => n + 3).map((place) => ({
            place,
            ...left(values, sharp(place)),
          }));
          const thatWay = all.filter(({ size }) => sign * size > 0);
          const best = thatWay.reduce<(typeof all)[number] | null>(
            (a, b) => (a === null || b.square < a.square ? b : a),
            null,
          );
          const found = fitter.sharpest(3, COUNT - 4, sign);
          expect(found?.place).toBe(best?.place);
          if (found === null || best === null) return;
          expect(found.gain).toBeCloseTo(whole.square - best.square, 9);
          expect(found.size).toBeCloseTo(best.size, 7);
          const curve = new Float64Array(COUNT + 1);
          fitter.curve(found, curve);
          for (const [i, value] of best.fitted.entries()) expect(curve[i]).toBeCloseTo(value, 7);
        },
      ),
      { numRuns: 30 },
    );
  });

  test('that turns gently is looked for at every other place', () => {
    for (const seed of [1, 2, 3, 4]) {
      const values = scattered(seed);
      const fitter = fitterOf(values);
      const whole = left(values, null);
      const all = [4, 6, 8, 10, 12, 14, 16, 18].map((place) => ({
        place,
        ...left(values, gentle(place, 0.2)),
      }));
      const upward = all.filter(({ size }) => size > 0);
      const best = upward.reduce((a, b) => (b.square < a.square ? b : a));
      const found = fitter.gentlest(4, 19, 1, 0.2);
      expect(found?.place).toBe(best.place);
      expect(found?.gain).toBeCloseTo(whole.square - best.square, 9);
      expect(found?.size).toBeCloseTo(best.size, 7);
    }
  });

  test('of a parabola is nowhere, and of a bend downward not upward', () => {
    const parabola = X.map((x) => 1 + 2 * x - 3 * x * x);
    const fitter = fitterOf(parabola);
    expect(fitter.rest).toBeCloseTo(0, 12);
    expect(fitter.sharpest(3, COUNT - 4, 1)?.gain ?? 0).toBeCloseTo(0, 12);
    const bent = parabola.map((value, i) => value - 2 * (sharp(10)[i] ?? 0));
    const found = fitterOf(bent).sharpest(3, COUNT - 4, -1);
    expect(found).toMatchObject({ place: 10, size: expect.closeTo(-2, 6) });
  });

  test('is found again in the same room, whatever stood there before', () => {
    const fitter = fitterOf(scattered(1), 3 * COUNT);
    fitter.x.set(X);
    fitter.y.set(scattered(2));
    fitter.prepare(COUNT);
    expect(fitter.sharpest(3, COUNT - 4, 1)).toEqual(
      fitterOf(scattered(2)).sharpest(3, COUNT - 4, 1),
    );
  });
});
