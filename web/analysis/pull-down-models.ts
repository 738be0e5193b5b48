/**
 * Competing models of a pull-down, all of one form: dP/dt = −Σ cₘ·Pᵐ + q, with c, q ≥ 0.
 *
 * m = 1 is a pump at constant speed, P = F + A·e^(−kt); m = 1 and 2 together a hose in viscous flow
 * whose speed falls with the pressure, dP/dt = −(aP + b)·P + q; m = 2 alone a tail like 1/t, m = 3 one
 * like 1/√t. q is an inflow, and with it comes a floor. Integrated over time the form is linear in
 * its coefficients: P(t) = P(t₀) − Σ cₘ·∫Pᵐ dt + q·(t − t₀). The integrals of the measured curve are
 * smooth where its derivative would be noise.
 */
import { normalEquations, solveNonnegative } from './nonnegative-least-squares.ts';
import type { PullDownPoint } from './pull-down-points.ts';

export interface ModelForm {
  readonly powers: readonly (1 | 2 | 3)[];
  readonly inflow: boolean;
  /**
   * Weight before any data. On a short stretch every slow tail looks like an exponential with a
   * floor just below, so those that end in a floor have to earn their weight.
   */
  readonly prior: number;
}

/** In the order of their physics: pump, hose, tails; each with an inflow, the plain ones without. */
export const MODEL_FORMS: readonly ModelForm[] = [
  { powers: [1], inflow: false, prior: 1 },
  { powers: [1], inflow: true, prior: 0.3 },
  { powers: [1, 2], inflow: true, prior: 0.3 },
  { powers: [2], inflow: false, prior: 1 },
  { powers: [2], inflow: true, prior: 0.5 },
  { powers: [3], inflow: false, prior: 1 },
  { powers: [3], inflow: true, prior: 0.5 },
];

/** A fitted model; pressures in units of `scalePa`. */
export interface PullDownModel {
  readonly scalePa: number;
  /** c₁, c₂, c₃; 0 where the form leaves a power out. */
  readonly linear: number;
  readonly square: number;
  readonly cubic: number;
  readonly inflow: number;
  /** The model's own pressure at the last of its points, Pa. */
  readonly lastPa: number;
}

/** Gauges of the trade scatter by about one per cent and a tenth of a pascal. From memory. */
const RELATIVE_SIGMA = 0.01;
const SIGMA_PA = 0.1;

export function fitModel(points: readonly PullDownPoint[], form: ModelForm): PullDownModel | null {
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last || points.length < form.powers.length + 4) return null;
  const scalePa = last.pressurePa;
  const values = points.map(({ pressurePa }) => pressurePa / scalePa);
  const columns = [
    points.map(() => 1),
    ...form.powers.map((power) => integrals(points, scalePa, power).map((value) => -value)),
  ];
  if (form.inflow) columns.push(points.map(({ elapsedS }) => elapsedS - first.elapsedS));
  const weights = values.map((value) => 1 / (RELATIVE_SIGMA * value + SIGMA_PA / scalePa) ** 2);
  const { coefficients } = solveNonnegative(normalEquations(columns, values, weights), [
    true,
    ...columns.slice(1).map(() => false),
  ]);
  const lastValue = columns.reduce(
    (sum, column, i) => sum + (column.at(-1) ?? 0) * (coefficients[i] ?? 0),
    0,
  );
  const coefficientOf = (power: 1 | 2 | 3) => {
    const place = form.powers.indexOf(power);
    return place === -1 ? 0 : (coefficients[place + 1] ?? 0);
  };
  return {
    scalePa,
    linear: coefficientOf(1),
    square: coefficientOf(2),
    cubic: coefficientOf(3),
    inflow: form.inflow ? (coefficients.at(-1) ?? 0) : 0,
    lastPa: Math.max(lastValue, 0.1) * scalePa,
  };
}

/** ∫Pᵐ dt from the first point to each; between points the pressure falls exponentially. */
function integrals(points: readonly PullDownPoint[], scalePa: number, power: number): number[] {
  let sum = 0;
  return points.map(({ elapsedS, pressurePa }, i) => {
    const before = points[i - 1];
    if (!before) return 0;
    const [from, to] = [(before.pressurePa / scalePa) ** power, (pressurePa / scalePa) ** power];
    const ratio = Math.log(to / from);
    const mean = Math.abs(ratio) < 1e-6 ? (from + to) / 2 : (to - from) / ratio;
    sum += mean * (elapsedS - before.elapsedS);
    return sum;
  });
}

/** −d ln P/dt at a pressure, 1/s; negative below the floor. The innermost loop of all judging. */
function fallRate(model: PullDownModel, pressurePa: number): number {
  const value = pressurePa / model.scalePa;
  return model.linear + value * (model.square + value * model.cubic) - model.inflow / value;
}

/** Halvings of a logarithm that is at most ln 1e4 wide: to a thousandth. */
const HALVINGS = 13;

/** How far down the model gets within a time, Pa: near its floor, if that time is long. */
export function depthWithin(model: PullDownModel, withinS: number): number {
  let high = Math.log(model.lastPa);
  let low = high - Math.log(1e4);
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (timeBetweenS(model, model.lastPa, Math.exp(middle)) <= withinS) high = middle;
    else low = middle;
  }
  return Math.exp(high);
}

/** Intervals of Simpson's rule in ln P. */
const INTERVALS = 32;

/** Time from one pressure down to another, s: ∫ d ln P / rate; infinite where it never gets there. */
export function timeBetweenS(model: PullDownModel, fromPa: number, toPa: number): number {
  if (toPa >= fromPa) return 0;
  const [start, end] = [Math.log(toPa), Math.log(fromPa)];
  const width = (end - start) / INTERVALS;
  let sum = 0;
  for (let i = 0; i <= INTERVALS; i += 1) {
    const rate = fallRate(model, Math.exp(start + i * width));
    if (!(rate > 0)) return Infinity;
    const factor = i === 0 || i === INTERVALS ? 1 : i % 2 === 1 ? 4 : 2;
    sum += factor / rate;
  }
  return (sum * width) / 3;
}

/** Steps of the fourth-order Runge–Kutta rule between two of the times asked for. */
const STEPS = 2;

/** The pressures at times after the one at which it is `fromPa`, Pa; the times ascend. */
export function pressuresAfter(
  model: PullDownModel,
  fromPa: number,
  timesS: readonly number[],
): number[] {
  let log = Math.log(fromPa);
  let atS = 0;
  return timesS.map((timeS) => {
    const stepS = (timeS - atS) / STEPS;
    for (let step = 0; step < STEPS && stepS > 0; step += 1) log = logAfterStep(model, log, stepS);
    atS = timeS;
    return Math.exp(log);
  });
}

function logAfterStep(model: PullDownModel, log: number, stepS: number): number {
  const k1 = slopeAt(model, log, stepS);
  const k2 = slopeAt(model, log + (stepS / 2) * k1, stepS);
  const k3 = slopeAt(model, log + (stepS / 2) * k2, stepS);
  const k4 = slopeAt(model, log + stepS * k3, stepS);
  return log + (stepS / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
}

/** A tail's rate explodes only far above where it was fitted; there the step is cut short. */
function slopeAt(model: PullDownModel, log: number, stepS: number): number {
  return -Math.min(fallRate(model, Math.exp(log)), 1 / stepS);
}
