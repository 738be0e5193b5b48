/** The fitting core against certified values. */
import { describe, expect, test } from 'vitest';
import {
  normalEquations,
  solveNonnegative,
} from '../../web/analysis/fitting/nonnegative-least-squares.ts';

/**
 * NIST/ITL Statistical Reference Datasets, Nonlinear Least Squares: Misra1a (lower level of
 * difficulty, observed data) and BoxBOD (higher), both y = b1·(1 − e^(−b2·x)): what moisture does in
 * a closed volume. Certified b1, b2 and residual sum of squares.
 */
const SATURATING = [
  {
    name: 'Misra1a',
    x: [
      77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760,
    ],
    y: [
      10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47,
      81.78,
    ],
    amplitude: 238.94212918,
    rate: 5.5015643181e-4,
    residual: 0.12455138894,
  },
  {
    name: 'BoxBOD',
    x: [1, 2, 3, 5, 7, 10],
    y: [109, 149, 149, 191, 213, 224],
    amplitude: 213.80940889,
    rate: 0.54723748542,
    residual: 1168.0088766,
  },
];

describe.each(SATURATING)('$name', ({ x, y, amplitude, rate, residual }) => {
  const ones = x.map(() => 1);
  const fitAt = (b2: number) => {
    const column = x.map((value) => 1 - Math.exp(-b2 * value));
    return solveNonnegative(normalEquations([column], y, ones), [false]);
  };

  test('at the certified rate the linear part gives the certified amplitude and residual', () => {
    const fit = fitAt(rate);
    expect((fit.coefficients[0] ?? 0) / amplitude).toBeCloseTo(1, 8);
    expect(fit.residual / residual).toBeCloseTo(1, 7);
  });

  test('the best rate of all is the certified one', () => {
    // Golden-section search: the residual over the rate alone has one valley.
    let [low, high] = [rate / 5, rate * 5];
    const part = (Math.sqrt(5) - 1) / 2;
    for (let step = 0; step < 60; step += 1) {
      const [left, right] = [high - part * (high - low), low + part * (high - low)];
      if (fitAt(left).residual < fitAt(right).residual) high = right;
      else low = left;
    }
    expect((low + high) / 2 / rate).toBeCloseTo(1, 4);
  });
});

test('Norris: a straight line, with its certified coefficients and residual', () => {
  // NIST/ITL Statistical Reference Datasets, Linear Regression: Norris (lower level, observed data).
  const x = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9,
    338, 447.5, 11.6, 556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779,
    11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
  ];
  const y = [
    0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
    339.3, 448.9, 10.8, 557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9,
    10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
  ];
  const ones = x.map(() => 1);
  const { coefficients, residual } = solveNonnegative(normalEquations([ones, x], y, ones), [
    true,
    false,
  ]);
  expect(coefficients[0]).toBeCloseTo(-0.262323073774029, 9);
  expect(coefficients[1]).toBeCloseTo(1.00211681802045, 11);
  expect(residual).toBeCloseTo(26.6173985294224, 6);
});
