/** The certified data sets of NIST/ITL's Statistical Reference Datasets, and their models. */
import { readFileSync } from 'node:fs';
import { z } from 'zod';

const numbers = z.array(z.number());
const setSchema = z.strictObject({
  name: z.string(),
  source: z.string(),
  model: z.string(),
  level: z.string(),
  dataKind: z.string(),
  start1: numbers,
  start2: numbers,
  certified: numbers,
  certifiedStandardDeviation: numbers,
  residualSumOfSquares: z.number(),
  x: numbers,
  y: numbers,
});
/** Norris is linear and needs no start. */
const linearSetSchema = setSchema.omit({ start1: true, start2: true });

type Curve = (x: number, parameters: readonly number[]) => number;

/** A certified problem with its model as a function. */
export interface CertifiedProblem extends z.infer<typeof setSchema> {
  readonly curve: Curve;
}

/** A model whose first parameters enter linearly, so that only the others need a start. */
export interface SeparableModel {
  /** Which parameters of the set are linear, in the order of `shapes`; the rest are not. */
  readonly linear: readonly number[];
  readonly nonlinear: readonly number[];
  /** The last shapes are alike but for one nonlinear parameter each: any order is as good. */
  readonly exchangeable: boolean;
  readonly shapes: (x: number, nonlinear: readonly number[]) => readonly number[];
}

function read(name: string): unknown {
  const file = new URL(`../published/nist-strd/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(file, 'utf8'));
}

export function norris(): z.infer<typeof linearSetSchema> {
  return linearSetSchema.parse(read('Norris'));
}

export function certifiedProblem(name: string): CertifiedProblem {
  const curve = CURVES[name];
  if (!curve) throw new Error(`no model is written down for ${name}`);
  return { ...setSchema.parse(read(name)), curve };
}

/** So many leading digits two numbers share: −log₁₀ of their relative difference, 16 at most. */
export function sharedDigits(got: readonly number[], certified: readonly number[]): number {
  const digits = certified.map((value, i) => {
    const off = Math.abs((got[i] ?? Number.NaN) - value) / Math.abs(value);
    return Number.isFinite(off) ? -Math.log10(Math.max(off, 1e-16)) : -Infinity;
  });
  return Math.min(...digits);
}

const threeExponentials: Curve = (x, [b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0]) =>
  b1 * Math.exp(-b2 * x) + b3 * Math.exp(-b4 * x) + b5 * Math.exp(-b6 * x);
const decay: Curve = (x, [b1 = 0, b2 = 0, b3 = 0]) => Math.exp(-b1 * x) / (b2 + b3 * x);
const saturating: Curve = (x, [b1 = 0, b2 = 0]) => b1 * (1 - Math.exp(-b2 * x));

const CURVES: Readonly<Record<string, Curve>> = {
  Bennett5: (x, [b1 = 0, b2 = 0, b3 = 0]) => b1 * (b2 + x) ** (-1 / b3),
  BoxBOD: saturating,
  Chwirut1: decay,
  Chwirut2: decay,
  DanWood: (x, [b1 = 0, b2 = 0]) => b1 * x ** b2,
  Eckerle4: (x, [b1 = 0, b2 = 0, b3 = 0]) => (b1 / b2) * Math.exp(-0.5 * ((x - b3) / b2) ** 2),
  Gauss1: (x, [b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0, b8 = 0]) =>
    b1 * Math.exp(-b2 * x) +
    b3 * Math.exp(-(((x - b4) / b5) ** 2)) +
    b6 * Math.exp(-(((x - b7) / b8) ** 2)),
  Lanczos1: threeExponentials,
  Lanczos2: threeExponentials,
  Lanczos3: threeExponentials,
  MGH09: (x, [b1 = 0, b2 = 0, b3 = 0, b4 = 0]) => (b1 * (x * x + x * b2)) / (x * x + x * b3 + b4),
  MGH10: (x, [b1 = 0, b2 = 0, b3 = 0]) => b1 * Math.exp(b2 / (x + b3)),
  MGH17: (x, [b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0]) =>
    b1 + b2 * Math.exp(-x * b4) + b3 * Math.exp(-x * b5),
  Misra1a: saturating,
  Misra1b: (x, [b1 = 0, b2 = 0]) => b1 * (1 - (1 + (b2 * x) / 2) ** -2),
  Misra1c: (x, [b1 = 0, b2 = 0]) => b1 * (1 - (1 + 2 * b2 * x) ** -0.5),
  Misra1d: (x, [b1 = 0, b2 = 0]) => (b1 * b2 * x) / (1 + b2 * x),
  Rat42: (x, [b1 = 0, b2 = 0, b3 = 0]) => b1 / (1 + Math.exp(b2 - b3 * x)),
  Rat43: (x, [b1 = 0, b2 = 0, b3 = 0, b4 = 1]) => b1 / (1 + Math.exp(b2 - b3 * x)) ** (1 / b4),
  Thurber: (x, [b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0]) =>
    (b1 + b2 * x + b3 * x ** 2 + b4 * x ** 3) / (1 + b5 * x + b6 * x ** 2 + b7 * x ** 3),
};

export const CERTIFIED_NAMES = Object.keys(CURVES);

const oneExponential: SeparableModel = {
  linear: [0],
  nonlinear: [1],
  exchangeable: false,
  shapes: (x, [b2 = 0]) => [1 - Math.exp(-b2 * x)],
};
const lanczos: SeparableModel = {
  linear: [0, 2, 4],
  nonlinear: [1, 3, 5],
  exchangeable: true,
  shapes: (x, rates) => rates.map((rate) => Math.exp(-rate * x)),
};

/** Those of the models that are ours: what levels off, sums of exponentials, a floor beneath. */
export const SEPARABLE: Readonly<Record<string, SeparableModel>> = {
  Misra1a: oneExponential,
  BoxBOD: oneExponential,
  Lanczos1: lanczos,
  Lanczos2: lanczos,
  Lanczos3: lanczos,
  MGH17: {
    linear: [0, 1, 2],
    nonlinear: [3, 4],
    exchangeable: true,
    shapes: (x, rates) => [1, ...rates.map((rate) => Math.exp(-rate * x))],
  },
  // Not ours, but the hardest of the collection, and linear in one parameter.
  MGH10: {
    linear: [0],
    nonlinear: [1, 2],
    exchangeable: false,
    shapes: (x, [b2 = 0, b3 = 0]) => [Math.exp(b2 / (x + b3))],
  },
  Bennett5: {
    linear: [0],
    nonlinear: [1, 2],
    exchangeable: false,
    shapes: (x, [b2 = 0, b3 = 1]) => [(b2 + x) ** (-1 / b3)],
  },
};
