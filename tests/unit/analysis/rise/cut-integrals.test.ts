/** Integrals over amounts that may not be negative, against sums over a fine grid. */
import { CutNormal } from '../../../../web/analysis/rise/cut-normal.ts';
import { releasesUsed } from '../../../../web/analysis/rise/releases-used.ts';
import type { Design } from '../../../../web/analysis/rise/rise-design.ts';
import { freedOfGrid } from '../../../../web/analysis/rise/rise-grid-error.ts';
import { MixtureVisitor } from '../../../../web/analysis/rise/rise-likelihood.ts';
import { MOST_AMOUNTS } from '../../../../web/analysis/rise/rise-mixtures.ts';
import { describe, expect, test } from 'vitest';

interface Normal {
  readonly precision: readonly (readonly number[])[];
  readonly pull: readonly number[];
}

/** Integral, means and covariance of exp(pull·u − ½·u·precision·u) over u ≥ 0. */
function summed({ precision, pull }: Normal) {
  const count = pull.length;
  const parts = count === 1 ? 4000 : count === 2 ? 160 : 44;
  const step = 9 / parts;
  const moments = { total: 0, first: pull.map(() => 0), second: pull.map(() => pull.map(() => 0)) };
  const u = pull.map(() => 0);
  const visit = (at: number): void => {
    if (at < count) {
      for (let n = 0; n < parts; n += 1) {
        u[at] = (n + 0.5) * step;
        visit(at + 1);
      }
      return;
    }
    let log = 0;
    for (let a = 0; a < count; a += 1) {
      log += (pull[a] ?? 0) * (u[a] ?? 0);
      for (let b = 0; b < count; b += 1) {
        log -= 0.5 * (u[a] ?? 0) * (precision[a]?.[b] ?? 0) * (u[b] ?? 0);
      }
    }
    const weight = Math.exp(log) * step ** count;
    moments.total += weight;
    for (let a = 0; a < count; a += 1) {
      moments.first[a] = (moments.first[a] ?? 0) + weight * (u[a] ?? 0);
      const row = moments.second[a] ?? [];
      for (let b = 0; b < count; b += 1)
        row[b] = (row[b] ?? 0) + weight * (u[a] ?? 0) * (u[b] ?? 0);
    }
  };
  visit(0);
  const means = moments.first.map((sum) => sum / moments.total);
  const covariance = moments.second.map((row, a) =>
    row.map((sum, b) => sum / moments.total - (means[a] ?? 0) * (means[b] ?? 0)),
  );
  return { log: Math.log(moments.total), means, covariance };
}

function integrated({ precision, pull }: Normal) {
  const normal = new CutNormal();
  normal.count = pull.length;
  for (const [a, row] of precision.entries()) {
    for (const [b, value] of row.entries()) normal.precision[a * MOST_AMOUNTS + b] = value;
  }
  normal.pull.set(pull);
  normal.uncut();
  const log = normal.integrate();
  const covariance = pull.map((_, a) =>
    pull.map((_each, b) => normal.covariance[a * MOST_AMOUNTS + b] ?? NaN),
  );
  return { log, means: [...normal.means].slice(0, pull.length), covariance };
}

describe('the integral of a normal distribution cut off at zero', () => {
  test.each<Normal>([
    { precision: [[2]], pull: [3] },
    { precision: [[2]], pull: [0] },
    { precision: [[2]], pull: [-2] },
    { precision: [[40]], pull: [160] },
  ])('of one amount: %j', (normal) => {
    const [found, expected] = [integrated(normal), summed(normal)];
    expect(found.log).toBeCloseTo(expected.log, 3);
    expect(found.means[0]).toBeCloseTo(expected.means[0] ?? NaN, 3);
    expect(found.covariance[0]?.[0]).toBeCloseTo(expected.covariance[0]?.[0] ?? NaN, 3);
  });

  test.each<Normal>([
    {
      precision: [
        [2, 0.8],
        [0.8, 3],
      ],
      pull: [2, 3],
    },
    {
      precision: [
        [2, 0.8],
        [0.8, 3],
      ],
      pull: [3, -1],
    },
    {
      precision: [
        [2, -0.8],
        [-0.8, 3],
      ],
      pull: [-1, 0.5],
    },
    {
      precision: [
        [2, 1.8],
        [1.8, 3],
      ],
      pull: [6, 7],
    },
    {
      precision: [
        [30, 5],
        [5, 40],
      ],
      pull: [150, 170],
    },
    {
      precision: [
        [2, 0.5, 0.3],
        [0.5, 3, -0.4],
        [0.3, -0.4, 2.5],
      ],
      pull: [2, 3, 1],
    },
    {
      precision: [
        [2, 0.5, 0.3],
        [0.5, 3, -0.4],
        [0.3, -0.4, 2.5],
      ],
      pull: [3, -1, 0.5],
    },
    {
      precision: [
        [2, -0.5, 0.8],
        [-0.5, 3, 0.4],
        [0.8, 0.4, 2.5],
      ],
      pull: [-1, 4, 5],
    },
  ])('of several: %j', (normal) => {
    const [found, expected] = [integrated(normal), summed(normal)];
    // The factors that stand for the cuts have their moments, and no more.
    expect(Math.abs(found.log - expected.log)).toBeLessThan(0.05);
    for (const [a, mean] of expected.means.entries()) {
      expect(Math.abs((found.means[a] ?? NaN) / mean - 1)).toBeLessThan(0.06);
      for (const [b, value] of (expected.covariance[a] ?? []).entries()) {
        const size = Math.sqrt(
          (expected.covariance[a]?.[a] ?? 0) * (expected.covariance[b]?.[b] ?? 0),
        );
        expect(Math.abs((found.covariance[a]?.[b] ?? NaN) - value) / size).toBeLessThan(0.08);
      }
    }
  });

  test('of no amounts is one', () => {
    expect(integrated({ precision: [], pull: [] }).log).toBe(0);
  });
});

const GRAM = [
  [4, 1, 0.5, 0.2],
  [1, 3, 1.2, 0.4],
  [0.5, 1.2, 2, 0.7],
  [0.2, 0.4, 0.7, 1.5],
] as const;
const MOMENTS = [3, 5, 4, 1] as const;
const DESIGN: Design = {
  shapes: [],
  lengthS: 900,
  size: 4,
  gram: Float64Array.from(GRAM.flat()),
  moments: Float64Array.from(MOMENTS),
  total: 12,
  logDeterminant: 2,
  amountScalePa: 3,
  startOffsetPa: 20,
  startPer: Float64Array.of(0.1, -0.3, -0.2, -0.1),
  endOffsetPa: 30,
  endPerAmount: Float64Array.of(9, 0.7, 0.5, 0.3),
  endVariance: 0.04,
  levelledPerAmount: Float64Array.of(0, 0.6, 0.4, 0.2),
};

/** What is left of the design once the inflow and the members are known: pull and precision of the amounts. */
function amountsOf(
  members: readonly number[],
  leakPaPerS: number,
): Normal & { readonly constant: number } {
  const ridge = 1 / (10 * DESIGN.amountScalePa) ** 2;
  const at = (i: number, j: number) => GRAM[i]?.[j] ?? NaN;
  return {
    precision: members.map((i) => members.map((j) => at(i, j) + (i === j ? ridge : 0))),
    pull: members.map(
      (i) => (MOMENTS[i] ?? NaN) - 1 / DESIGN.amountScalePa - at(i, 0) * leakPaPerS,
    ),
    constant: -0.5 * (DESIGN.total - 2 * MOMENTS[0] * leakPaPerS + GRAM[0][0] * leakPaPerS ** 2),
  };
}

describe('what a hold’s readings say of an inflow beside amounts that level off', () => {
  test.each([[[1]], [[1, 2]], [[1, 2, 3]], [[3]]])('mixture of %j', (members) => {
    const visitor = new MixtureVisitor(DESIGN);
    visitor.take({ members, logPrior: -1.5 });
    for (const leakPaPerS of [0, 0.3, 0.8]) {
      visitor.visit(leakPaPerS);
      const normal = amountsOf(members, leakPaPerS);
      const { log, means, covariance } = summed(normal);
      expect(Math.abs(visitor.logWeight - (log + normal.constant - 1.5))).toBeLessThan(0.05);
      for (const [a, mean] of means.entries()) {
        expect(Math.abs((visitor.amounts[a] ?? NaN) - mean)).toBeLessThan(0.05);
      }
      const ahead = new Float64Array(6);
      visitor.lookAhead(ahead, 1);
      const sumOver = (per: Float64Array) =>
        members.reduce((sum, i, a) => sum + (per[i] ?? 0) * (means[a] ?? 0), 0);
      const varianceOver = (per: Float64Array) =>
        members.reduce(
          (sum, i, a) =>
            members.reduce(
              (all, j, b) => all + (per[i] ?? 0) * (per[j] ?? 0) * (covariance[a]?.[b] ?? 0),
              sum,
            ),
          0,
        );
      const [before, endPa, endSigma, levelledPa, levelledSigma, after] = ahead;
      expect([before, after]).toEqual([0, 0]);
      expect(endPa).toBeCloseTo(30 + 9 * leakPaPerS + sumOver(DESIGN.endPerAmount), 1);
      expect(endSigma).toBeCloseTo(Math.sqrt(0.04 + varianceOver(DESIGN.endPerAmount)), 1);
      expect(levelledPa).toBeCloseTo(sumOver(DESIGN.levelledPerAmount), 1);
      expect(levelledSigma).toBeCloseTo(Math.sqrt(varianceOver(DESIGN.levelledPerAmount)), 1);
    }
  });

  test('without any amount is a normal distribution of the inflow', () => {
    const visitor = new MixtureVisitor(DESIGN);
    visitor.take({ members: [], logPrior: -1 });
    expect(visitor.free.at).toBeCloseTo(3 / 4, 12);
    expect(visitor.free.sigma).toBeCloseTo(1 / 2, 12);
    expect(visitor.free.logWeight).toBeCloseTo(-1 - 0.5 * (12 - 9 / 4), 12);
    visitor.visit(0.5);
    expect(visitor.logWeight).toBeCloseTo(-1 - 0.5 * (12 - 3 + 1), 12);
  });

  test('with free amounts has its top where least squares have it', () => {
    const visitor = new MixtureVisitor(DESIGN);
    visitor.take({ members: [1], logPrior: 0 });
    const h = GRAM[1][1] + 1 / 900;
    const pull = MOMENTS[1] - 1 / 3;
    const curvature = GRAM[0][0] - GRAM[0][1] ** 2 / h;
    const slope = MOMENTS[0] - (GRAM[0][1] * pull) / h;
    expect(visitor.free.at).toBeCloseTo(slope / curvature, 9);
    expect(visitor.free.sigma).toBeCloseTo(1 / Math.sqrt(curvature), 9);
    const square = slope ** 2 / curvature + pull ** 2 / h - 12;
    expect(visitor.free.logWeight).toBeCloseTo(0.5 * (square + Math.log((2 * Math.PI) / h)), 9);
  });
});

describe('a release between two time constants of the grid', () => {
  test('is a direction more, integrated over: each of the two releases in use loses what it can’t tell', () => {
    const used = releasesUsed(DESIGN, true).filter(({ place }) => place > 1 && place < 3);
    expect(used.map(({ place }) => place)).toEqual([2]);
    const half = (used[0]?.amountPa ?? NaN) / Math.sqrt(12) / 2;
    const direction = [0, -half, 0, half];
    const pull = GRAM.map((row) =>
      row.reduce((sum, value, j) => sum + value * (direction[j] ?? 0), 0),
    );
    const dot = (values: Iterable<number>) =>
      [...values].reduce((sum, value, i) => sum + value * (direction[i] ?? 0), 0);
    const pivot = 1 + dot(pull);
    const freed = freedOfGrid(DESIGN);
    for (let i = 0; i < 4; i += 1) {
      for (let j = 0; j < 4; j += 1) {
        expect(freed.gram[4 * i + j]).toBeCloseTo(
          (GRAM[i]?.[j] ?? NaN) - ((pull[i] ?? 0) * (pull[j] ?? 0)) / pivot,
          9,
        );
      }
      expect(freed.moments[i]).toBeCloseTo(
        (MOMENTS[i] ?? 0) - ((pull[i] ?? 0) * dot(MOMENTS)) / pivot,
        9,
      );
      expect(freed.startPer[i]).toBeCloseTo(
        (DESIGN.startPer[i] ?? 0) - (dot(DESIGN.startPer) * (pull[i] ?? 0)) / pivot,
        9,
      );
      expect(freed.endPerAmount[i]).toBeCloseTo(
        (DESIGN.endPerAmount[i] ?? 0) - (dot(DESIGN.endPerAmount) * (pull[i] ?? 0)) / pivot,
        9,
      );
    }
    expect(freed.total).toBeCloseTo(12 - dot(MOMENTS) ** 2 / pivot, 9);
    expect(freed.logDeterminant).toBeCloseTo(2 + Math.log(pivot), 9);
    expect(freed.endVariance).toBeCloseTo(0.04 + dot(DESIGN.endPerAmount) ** 2 / pivot, 9);
    expect(freed.startOffsetPa).toBeCloseTo(20 + (dot(DESIGN.startPer) * dot(MOMENTS)) / pivot, 9);
    expect(freed.endOffsetPa).toBeCloseTo(
      30 + (dot(DESIGN.endPerAmount) * dot(MOMENTS)) / pivot,
      9,
    );
    expect(DESIGN.total).toBe(12);
  });

  test('at either end of the grid is left as it is', () => {
    const ends: Design = {
      ...DESIGN,
      gram: Float64Array.from(
        [
          [4, 0, 0, 0],
          [0, 3, 0, 0],
          [0, 0, 2, 0],
          [0, 0, 0, 1],
        ].flat(),
      ),
      moments: Float64Array.of(1, 2, -1, 2),
    };
    expect(releasesUsed(ends, true).map(({ place }) => place)).toEqual([1, 3]);
    expect(freedOfGrid(ends)).toEqual(ends);
  });

  test('what is used depends on whether there may be a leak beside', () => {
    const leaking: Design = {
      ...DESIGN,
      gram: Float64Array.from(
        [
          [4, 2, 0, 0],
          [2, 3, 0, 0],
          [0, 0, 2, 0],
          [0, 0, 0, 1],
        ].flat(),
      ),
      moments: Float64Array.of(4, 2, 3, -1),
    };
    expect(releasesUsed(leaking, true)).toEqual([{ place: 2, amountPa: expect.closeTo(1.5, 9) }]);
    expect(releasesUsed(leaking, false)).toEqual([
      { place: 1, amountPa: expect.closeTo(2 / 3, 9) },
      { place: 2, amountPa: expect.closeTo(1.5, 9) },
    ]);
  });
});
