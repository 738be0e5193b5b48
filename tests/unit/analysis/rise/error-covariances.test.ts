/** How the errors of a hold’s points hang together, and the factor that makes them independent. */
import { choleskyFactor, choleskySolve } from '../../../../web/analysis/fitting/cholesky.ts';
import {
  covarianceFactor,
  errorsOf,
  whiten,
} from '../../../../web/analysis/rise/rise-covariance.ts';
import type { Noise } from '../../../../web/analysis/rise/rise-noise.ts';
import type { RisePoint } from '../../../../web/analysis/rise/rise-points.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const NOISE: Noise = {
  varianceAt: (pressurePa) => 0.04 + 1e-4 * pressurePa,
  whiteShare: 0.3,
  correlationS: 4,
  stepsAt: () => ({ untilS: Infinity, stepPa: 0, dwellS: 0 }),
};
const point = (heldS: number, widthS: number, change: Partial<RisePoint> = {}): RisePoint => ({
  ...{ heldS, widthS, pressurePa: 50, count: 5, stepPa: 0, dwellS: 0 },
  ...change,
});

/** The mean over two stretches of e^(−|s − t|/τ), by sums over many moments of each. */
function meanKept(a: RisePoint, b: RisePoint, tauS: number): number {
  const parts = 140;
  const moments = ({ heldS, widthS }: RisePoint) =>
    Array.from({ length: parts }, (_, n) => heldS + widthS * ((n + 0.5) / parts - 0.5));
  let sum = 0;
  for (const s of moments(a)) for (const t of moments(b)) sum += Math.exp(-Math.abs(s - t) / tauS);
  return sum / parts ** 2;
}

describe('errors that fade', () => {
  const points = [
    point(10, 2),
    point(14, 4, { pressurePa: 60 }),
    point(25, 8),
    point(70, 20),
    point(71, 0),
  ];
  const { noise, wander, size } = errorsOf(points, NOISE);

  test('are averages of what forgets itself, within a point and between two', () => {
    for (const [i, a] of points.entries()) {
      for (const [j, b] of points.slice(0, i + 1).entries()) {
        const [sigmaA, sigmaB] = [a, b].map(({ pressurePa }) =>
          Math.sqrt(0.7 * NOISE.varianceAt(pressurePa)),
        );
        const isApart = i === j || a.heldS - b.heldS >= (a.widthS + b.widthS) / 2;
        if (!isApart) continue;
        const kept = meanKept(a, b, 4) * (sigmaA ?? 0) * (sigmaB ?? 0);
        // What is left after eight times its own time is left out.
        if (kept > 1e-4) expect(noise[i * size + j], `${i}, ${j}`).toBeCloseTo(kept, 4);
        const wandering = meanKept(a, b, 300) * a.pressurePa * b.pressurePa;
        expect((wander[i * size + j] ?? 0) / wandering, `${i}, ${j}`).toBeCloseTo(1, 2);
      }
    }
  });

  test('far apart have nothing in common, and overlapping points no less than one has with itself', () => {
    const { noise: far } = errorsOf([point(0, 1), point(100, 1)], NOISE);
    expect(far[2]).toBe(0);
    const { noise: near } = errorsOf([point(0, 1), point(0.2, 1)], NOISE);
    expect(near[2]).toBeGreaterThan(0.8 * (near[0] ?? 0));
    expect(near[2]).toBeLessThanOrEqual((near[0] ?? 0) * 1.0001);
  });
});

describe('what is not of the sensor’s noise', () => {
  test('white noise falls with the number of readings in a point', () => {
    const { white } = errorsOf([point(0, 1, { count: 1 }), point(1, 1, { count: 10 })], NOISE);
    expect(white[0]).toBeCloseTo(0.3 * NOISE.varianceAt(50), 12);
    expect(white[1]).toBeCloseTo(0.03 * NOISE.varianceAt(50), 12);
  });

  test('rounding is even over a step, and lasts half as long as the display dwells', () => {
    const stepped = [0, 30, 60].map((heldS) => point(heldS, 0, { stepPa: 1.2, dwellS: 40 }));
    const { rounding } = errorsOf(stepped, NOISE);
    expect(rounding[0]).toBeCloseTo(1.2 ** 2 / 12, 9);
    expect((rounding[3] ?? 0) / (rounding[0] ?? 1)).toBeCloseTo(Math.exp(-30 / 20), 6);
    const { rounding: none } = errorsOf([point(0, 1), point(1, 1)], NOISE);
    expect([...none]).toEqual([0, 0, 0, 0]);
  });

  test('the whole is the sum of its parts, each by its own size', () => {
    const points = [0, 20, 45].map((heldS) => point(heldS, 4, { stepPa: 0.5, dwellS: 10 }));
    const errors = errorsOf(points, NOISE);
    const factor = covarianceFactor(errors, { wanderShare: 0.01, scale: 2 });
    for (let i = 0; i < 3; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        const at = i * 3 + j;
        let product = 0;
        for (let k = 0; k <= j; k += 1)
          product += (factor[i * 3 + k] ?? 0) * (factor[j * 3 + k] ?? 0);
        const white = i === j ? (errors.white[i] ?? 0) : 0;
        const sum =
          2 * ((errors.noise[at] ?? 0) + white) +
          1e-4 * (errors.wander[at] ?? 0) +
          (errors.rounding[at] ?? 0);
        expect(product).toBeCloseTo(sum, 9);
      }
    }
  });
});

const anyFactor = fc.integer({ min: 1, max: 7 }).chain((size) =>
  fc
    .array(fc.double({ min: -1, max: 1, noNaN: true }), {
      minLength: size * size,
      maxLength: size * size,
    })
    .map((entries) => ({
      size,
      factor: Float64Array.from(entries, (entry, at) => {
        const [row, column] = [Math.floor(at / size), at % size];
        return column < row ? entry : column === row ? 1 + Math.abs(entry) : 0;
      }),
    })),
);

describe('triangular factors', () => {
  test('make columns independent, however many are asked for at once', () => {
    fc.assert(
      fc.property(anyFactor, fc.integer({ min: 1, max: 9 }), ({ size, factor }, count) => {
        const columns = Array.from({ length: count }, (_, c) =>
          Float64Array.from({ length: size }, (_each, i) => Math.sin(3 * c + i)),
        );
        const kept = columns.map((column) => [...column]);
        const whites = whiten(factor, size, columns);
        expect(columns.map((column) => [...column])).toEqual(kept);
        expect(whites).toHaveLength(count);
        for (const [c, white] of whites.entries()) {
          for (let i = 0; i < size; i += 1) {
            let product = 0;
            for (let k = 0; k <= i; k += 1)
              product += (factor[i * size + k] ?? 0) * (white[k] ?? 0);
            expect(product).toBeCloseTo(columns[c]?.[i] ?? NaN, 8);
          }
        }
      }),
    );
  });

  test('are found again in their own product, and solve it', () => {
    fc.assert(
      fc.property(anyFactor, ({ size, factor }) => {
        const matrix = new Float64Array(size * size);
        for (let i = 0; i < size; i += 1) {
          for (let j = 0; j < size; j += 1) {
            for (let k = 0; k < size; k += 1) {
              matrix[i * size + j] =
                (matrix[i * size + j] ?? 0) +
                (factor[i * size + k] ?? 0) * (factor[j * size + k] ?? 0);
            }
          }
        }
        const found = choleskyFactor(matrix, size);
        for (const [at, value] of factor.entries()) expect(found?.[at]).toBeCloseTo(value, 8);
        const right = Float64Array.from({ length: size }, (_, i) => i - 1.5);
        const solution = choleskySolve(found ?? factor, right);
        for (let i = 0; i < size; i += 1) {
          let product = 0;
          for (let j = 0; j < size; j += 1)
            product += (matrix[i * size + j] ?? 0) * (solution[j] ?? 0);
          expect(product).toBeCloseTo(i - 1.5, 6);
        }
      }),
    );
  });

  test('are none of a matrix that is not positive definite', () => {
    expect(choleskyFactor(Float64Array.of(1, 2, 2, 1), 2)).toBeNull();
    expect(choleskyFactor(Float64Array.of(0), 1)).toBeNull();
    expect(choleskyFactor(Float64Array.of(Number.NaN), 1)).toBeNull();
  });
});
