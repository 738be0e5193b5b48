/**
 * The nonlinear fits against NIST/ITL's Statistical Reference Datasets: certified parameters and their
 * certified standard deviations, each from both of NIST's starting points (the first far away).
 */
import { describe, expect, test } from 'vitest';
import {
  factorise,
  solveLeastSquares,
  unitVariances,
} from '../../web/analysis/fitting/householder.ts';
import { curveProblem, fitNonlinear } from '../../web/analysis/fitting/nonlinear-least-squares.ts';
import { fitSeparable } from '../../web/analysis/fitting/separable-least-squares.ts';
import {
  CERTIFIED_NAMES,
  certifiedProblem,
  norris,
  SEPARABLE,
  sharedDigits,
  type CertifiedProblem,
  type SeparableModel,
} from '../support/strd.ts';

/** NIST prints eleven digits; a fit is good from six on. */
const DIGITS = 6;
/**
 * Lanczos1 is data of a known curve to thirteen digits: its residuals, 1.4e-25 in sum, are rounding, and
 * so is any standard deviation that is taken from them. The parameters stand.
 */
const RESIDUALS_ARE_ROUNDING = new Set(['Lanczos1']);

interface Got {
  readonly parameters: readonly number[];
  readonly standardDeviations: readonly number[];
  readonly residual: number;
}

function expectCertified(got: Got, problem: CertifiedProblem): void {
  expect(sharedDigits(got.parameters, problem.certified)).toBeGreaterThan(DIGITS);
  if (RESIDUALS_ARE_ROUNDING.has(problem.name)) {
    expect(got.residual).toBeLessThan(1.01 * problem.residualSumOfSquares);
    return;
  }
  expect(sharedDigits(got.standardDeviations, problem.certifiedStandardDeviation)).toBeGreaterThan(
    DIGITS,
  );
  expect(sharedDigits([got.residual], [problem.residualSumOfSquares])).toBeGreaterThan(9);
}

const STARTS = ['start1', 'start2'] as const;

describe.each(CERTIFIED_NAMES)('%s', (name) => {
  const problem = certifiedProblem(name);

  test.each(STARTS)('all parameters at once, from %s', (start) => {
    const fit = fitNonlinear(curveProblem(problem.x, problem.y, problem.curve), problem[start]);
    expect(fit).toMatchObject({ ok: true, converged: true });
    if (fit.ok) expectCertified(fit, problem);
  });
});

describe.each(Object.entries(SEPARABLE))('%s', (name, model) => {
  const problem = certifiedProblem(name);

  test.each(STARTS)('with a start for the nonlinear parameters only, from %s', (start) => {
    const fit = fitSeparable(
      separable(problem, model),
      model.nonlinear.map((place) => problem[start][place] ?? 0),
    );
    expect(fit).toMatchObject({ ok: true, converged: true });
    if (fit.ok) expectCertified(inOrder(problem, model, fit), problem);
  });
});

function separable({ x, y }: CertifiedProblem, { linear, shapes }: SeparableModel) {
  return {
    values: y,
    shapeCount: linear.length,
    shapes: (nonlinear: readonly number[], into: readonly Float64Array[]) => {
      for (const [row, place] of x.entries()) {
        for (const [j, value] of shapes(place, nonlinear).entries()) (into[j] ?? [])[row] = value;
      }
    },
  };
}

/** Back to the order of the set, in which exponentials that differ in nothing but their rates ascend. */
function inOrder(
  problem: CertifiedProblem,
  { linear, nonlinear, exchangeable }: SeparableModel,
  fit: Extract<ReturnType<typeof fitSeparable>, { ok: true }>,
): Got {
  const order = [...nonlinear.keys()];
  if (exchangeable) order.sort((a, b) => (fit.nonlinear[a] ?? 0) - (fit.nonlinear[b] ?? 0));
  const alone = exchangeable ? linear.length - nonlinear.length : linear.length;
  const parameters = problem.certified.map(() => Number.NaN);
  const standardDeviations = [...parameters];
  for (const [i, place] of linear.entries()) {
    const from = i < alone ? i : alone + (order[i - alone] ?? 0);
    parameters[place] = fit.linear[from] ?? Number.NaN;
    standardDeviations[place] = fit.linearDeviations[from] ?? Number.NaN;
  }
  for (const [i, place] of nonlinear.entries()) {
    parameters[place] = fit.nonlinear[order[i] ?? 0] ?? Number.NaN;
    standardDeviations[place] = fit.nonlinearDeviations[order[i] ?? 0] ?? Number.NaN;
  }
  return { parameters, standardDeviations, residual: fit.residual };
}

test('Norris: a straight line by the factorisation, coefficients and deviations to twelve digits', () => {
  const { x, y, certified, certifiedStandardDeviation, residualSumOfSquares } = norris();
  const factors = factorise([Float64Array.from(x, () => 1), Float64Array.from(x)]);
  const coefficients = solveLeastSquares(factors, Float64Array.from(y));
  expect(sharedDigits(coefficients, certified)).toBeGreaterThan(12);
  const [intercept = 0, slope = 0] = coefficients;
  const residual = y.reduce(
    (sum, value, i) => sum + (value - intercept - slope * (x[i] ?? 0)) ** 2,
    0,
  );
  expect(sharedDigits([residual], [residualSumOfSquares])).toBeGreaterThan(12);
  const deviations = unitVariances(factors)?.map((unit) =>
    Math.sqrt((unit * residual) / (x.length - 2)),
  );
  expect(sharedDigits(deviations ?? [], certifiedStandardDeviation)).toBeGreaterThan(12);
});
