/** What is left of a hold's readings once all that is no rise is integrated over: against whole covariances. */
import { covarianceFactor } from '../../../../web/analysis/rise/rise-covariance.ts';
import { problemOf, riseDesign, whitened } from '../../../../web/analysis/rise/rise-design.ts';
import type { Noise } from '../../../../web/analysis/rise/rise-noise.ts';
import type { RisePoint } from '../../../../web/analysis/rise/rise-points.ts';
import { shapeAt, type Shape } from '../../../../web/analysis/rise/rise-shapes.ts';
import { once } from '../../../support/once.ts';
import { describe, expect, test } from 'vitest';

const HELD_S = [2, 5, 9, 15, 30, 60, 100, 160, 230, 310, 400, 500];
const LENGTH_S = 500;
const HOLD_S = 900;
const NOISE: Noise = {
  ...{ varianceAt: (pressurePa) => 0.04 + 1e-4 * pressurePa, whiteShare: 0.3, correlationS: 8 },
  stepsAt: () => ({ untilS: Infinity, stepPa: 0, dwellS: 0 }),
};
const POINTS = HELD_S.map((heldS, i): RisePoint => ({
  ...{ heldS, pressurePa: 30 + 0.03 * heldS + 8 * (1 - Math.exp(-heldS / 90)) + 0.2 * (i % 3) },
  ...{ widthS: 2, count: 2, stepPa: 0.1, dwellS: 3 },
}));
const SHAPES: readonly Shape[] = [
  { kind: 'leak', tauS: 0 },
  { kind: 'release', tauS: 40 },
  { kind: 'release', tauS: 400 },
];
const WARMING = {
  meanPa: Float64Array.from(HELD_S, (heldS) => 0.002 * heldS),
  shapesPa: [Float64Array.from(HELD_S, (heldS) => 1e-5 * heldS ** 2)],
};
const STEPS_S = [130];
const EXTRA = { wanderShare: 0.004, scale: 1.5 };
const EVENING_PA = 2;

/** Gauss and Jordan: the inverse, and ln of the determinant. */
function inverted(matrix: readonly (readonly number[])[]) {
  const rows = matrix.map((row, i) => [...row, ...matrix.map((_, j) => (i === j ? 1 : 0))]);
  let logDeterminant = 0;
  for (const [k, row] of rows.entries()) {
    const pivot = row[k] ?? NaN;
    logDeterminant += Math.log(pivot);
    for (const [j, value] of row.entries()) row[j] = value / pivot;
    for (const [i, other] of rows.entries()) {
      if (i === k) continue;
      const share = other[k] ?? 0;
      for (const [j, value] of row.entries()) other[j] = (other[j] ?? 0) - share * value;
    }
  }
  return { inverse: rows.map((row) => row.slice(matrix.length)), logDeterminant };
}

function designWith(stepsS: readonly number[], equalisationPa: number, holdS = HOLD_S) {
  const setting = {
    ...{ lengthS: LENGTH_S, holdS, allowedRisePa: 40, warming: WARMING, stepsS },
  };
  const problem = problemOf(POINTS, NOISE, SHAPES, setting);
  const found = riseDesign(whitened(problem, EXTRA), equalisationPa);
  return { problem, found };
}

/** The same by the covariance of the readings with all nuisances in it, and a constant of any size. */
function expected(stepsS: readonly number[], equalisationPa: number) {
  const { problem } = designWith(stepsS, equalisationPa);
  const factor = covarianceFactor(problem.errors, EXTRA);
  const size = HELD_S.length;
  const nuisances = [
    ...[
      [3, 1],
      [7, 1],
      [17, 1],
      [40, 0.7],
      [95, 0.4],
    ].map(([tauS = 1, part = 1]) =>
      HELD_S.map((heldS) => part * equalisationPa * Math.exp(-heldS / tauS)),
    ),
    ...WARMING.shapesPa.map((shape) => [...shape]),
    ...stepsS.map((stepS) => HELD_S.map((heldS) => (heldS > stepS ? 0 : -1000))),
  ];
  const covariance = HELD_S.map((_, i) =>
    HELD_S.map((_each, j) => {
      let sum = 0;
      for (let k = 0; k <= Math.min(i, j); k += 1)
        sum += (factor[i * size + k] ?? 0) * (factor[j * size + k] ?? 0);
      for (const column of nuisances) sum += (column[i] ?? 0) * (column[j] ?? 0);
      return sum;
    }),
  );
  const { inverse, logDeterminant } = inverted(covariance);
  const product = (a: readonly number[], b: readonly number[]) =>
    a.reduce(
      (sum, value, i) =>
        sum + value * b.reduce((all, other, j) => all + (inverse[i]?.[j] ?? NaN) * other, 0),
      0,
    );
  const one = HELD_S.map(() => 1);
  const weight = product(one, one);
  const free = (a: readonly number[], b: readonly number[]) =>
    product(a, b) - (product(one, a) * product(one, b)) / weight;
  const mean = (a: readonly number[]) => product(one, a) / weight;
  const readPa = POINTS.map(({ pressurePa }, i) => pressurePa - (WARMING.meanPa[i] ?? 0));
  const shapes = SHAPES.map((shape) => HELD_S.map((heldS) => shapeAt(shape, heldS, LENGTH_S)));
  return { free, mean, readPa, shapes, weight, logDeterminant: logDeterminant + Math.log(weight) };
}

const relative = (found: number | undefined, value: number) => (found ?? NaN) / value;

describe.each([
  { name: 'with a step and with what evens out', stepsS: STEPS_S, equalisationPa: EVENING_PA },
  { name: 'with nothing that evens out', stepsS: [], equalisationPa: 0 },
])('a design $name', ({ stepsS, equalisationPa }) => {
  const both = once(() => ({
    found: designWith(stepsS, equalisationPa).found,
    ...expected(stepsS, equalisationPa),
  }));

  test('has the normal equations of the readings’ whole covariance', () => {
    const { found, free, readPa, shapes, logDeterminant } = both();
    expect(found.size).toBe(3);
    for (const [i, shape] of shapes.entries()) {
      for (const [j, other] of shapes.entries())
        expect(relative(found.gram[3 * i + j], free(shape, other))).toBeCloseTo(1, 5);
      expect(relative(found.moments[i], free(shape, readPa))).toBeCloseTo(1, 4);
    }
    expect(relative(found.total, free(readPa, readPa))).toBeCloseTo(1, 4);
    expect(found.logDeterminant).toBeCloseTo(logDeterminant, 5);
  });

  test('tells the pressure at isolation and at the end by what is left of the mean', () => {
    const { found, mean, readPa, shapes, weight } = both();
    expect(found.startOffsetPa).toBeCloseTo(mean(readPa), 5);
    expect(found.endOffsetPa).toBeCloseTo(mean(readPa), 5);
    for (const [i, shape] of shapes.entries()) {
      expect(relative(found.startPer[i], -mean(shape))).toBeCloseTo(1, 6);
      const atEnd = shapeAt(SHAPES[i] ?? { kind: 'leak', tauS: 0 }, HOLD_S, LENGTH_S);
      expect(found.endPerAmount[i]).toBeCloseTo(atEnd - mean(shape), 5);
      expect(found.levelledPerAmount[i]).toBeCloseTo(i === 0 ? 0 : atEnd, 9);
    }
    const lastPa = POINTS.at(-1)?.pressurePa ?? NaN;
    const drift = (1e-3 + EXTRA.wanderShare) * (400 / HOLD_S) * lastPa;
    expect(found.endVariance).toBeCloseTo(1 / weight + drift ** 2, 6);
  });
});

test('what is over has no way to go on wandering', () => {
  const { found } = designWith([], 0, 400);
  const { weight } = expected([], 0);
  expect(found.endVariance).toBeCloseTo(1 / weight, 9);
});

test('what is to be expected of an amount is the rise so far, or a fifth of what is allowed', () => {
  const { found } = designWith([], 0);
  const [first, last] = [POINTS.slice(0, 5), POINTS.slice(-5)].map((points) =>
    points.map(({ pressurePa }) => pressurePa),
  );
  const risenPa = Math.max(...(last ?? [])) - Math.min(...(first ?? []));
  expect(found.amountScalePa).toBeCloseTo(risenPa, 9);
  const setting = { lengthS: LENGTH_S, holdS: HOLD_S, warming: WARMING, stepsS: [] };
  // What stood high in between is over: the last five less the first five.
  const bulging = POINTS.map((each, i) => (i === 6 ? { ...each, pressurePa: 900 } : each));
  const bulged = problemOf(bulging, NOISE, SHAPES, { ...setting, allowedRisePa: 40 });
  expect(bulged.amountScalePa).toBeCloseTo(risenPa, 9);
  const generous = problemOf(POINTS, NOISE, SHAPES, { ...setting, allowedRisePa: 400 });
  expect(generous.amountScalePa).toBeCloseTo(80, 9);
});
