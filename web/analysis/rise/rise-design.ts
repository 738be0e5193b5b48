/** The readings of a hold as a linear problem in the shapes of a rise, freed of errors that hang together. */
import { covarianceFactor, errorsOf, whiten, type Errors } from './rise-covariance.ts';
import type { Noise } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';
import { shapeAt, shapeColumn, type Shape } from './rise-shapes.ts';
import type { Warming } from './rise-warming.ts';

/** The problem with everything but the shapes worked out. */
export interface Design {
  readonly shapes: readonly Shape[];
  /** A coefficient of a shape (but the leak's) is what it has added by then, Pa. */
  readonly lengthS: number;
  /** How many shapes. */
  readonly size: number;
  /** Normal equations of the whitened problem, row by row. */
  readonly gram: Float64Array;
  readonly moments: Float64Array;
  readonly total: number;
  /** ln of the determinant of the readings' covariance, with all that was worked out in it. */
  readonly logDeterminant: number;
  /** How much is to be expected of an amount, Pa. */
  readonly amountScalePa: number;
  /** The settled pressure at isolation is `startOffsetPa` + Σ startPer·coefficient. */
  readonly startOffsetPa: number;
  readonly startPer: Float64Array;
  /** The same of the pressure at the end of the hold. */
  readonly endOffsetPa: number;
  readonly endPerAmount: Float64Array;
  readonly endVariance: number;
  /** What each has levelled off by the end of the hold. */
  readonly levelledPerAmount: Float64Array;
}

interface Setting {
  readonly lengthS: number;
  readonly holdS: number;
  readonly allowedRisePa: number;
  readonly warming: Warming;
  /** Moments since isolation at which the pressure jumped by itself, s. */
  readonly stepsS: readonly number[];
}

/** The readings, and all that may have made them. */
export interface Problem {
  readonly points: readonly RisePoint[];
  readonly shapes: readonly Shape[];
  readonly setting: Setting;
  readonly errors: Errors;
  /** Equalisations, warming, steps, constant, shapes, readings: each at every point. */
  readonly columns: readonly Float64Array[];
  /** How much is to be expected of an amount, Pa. */
  readonly amountScalePa: number;
  /** Of each shape, what a coefficient of 1 is at the end of the hold. */
  readonly atEnd: Float64Array;
}

/** Gram matrix of the columns, freed of errors that hang together. */
export interface Whitened {
  readonly problem: Problem;
  readonly wanderShare: number;
  readonly gram: Float64Array;
  readonly width: number;
  readonly logDeterminant: number;
}

/** Amounts of a fifth of the allowed rise are to be expected of every system. A setting of ours. */
const LEAST_AMOUNT_SHARE = 0.2;
/** How much the reading may wander on until the end of the hold, as a share of it. */
const DRIFT_SHARE = 1e-3;
/**
 * Pressures even out along lines and through a sensor's passage, upward or downward: time constants
 * from seconds to minutes, s, and how large they are to one another. The quickest are over before the first
 * minute is: without them its clean readings had to be told by slower ones, and so its end was.
 */
const EQUALISATIONS = [
  { tauS: 3, size: 1 },
  { tauS: 7, size: 1 },
  { tauS: 17, size: 1 },
  { tauS: 40, size: 0.7 },
  { tauS: 95, size: 0.4 },
] as const;
const WARMING = EQUALISATIONS.length;
/** A step may be of any size, Pa. */
const STEP_PA = 1000;

export function problemOf(
  points: readonly RisePoint[],
  noise: Noise,
  shapes: readonly Shape[],
  setting: Setting,
): Problem {
  const { warming, lengthS, holdS, allowedRisePa, stepsS } = setting;
  const heldS = new Float64Array(points.length);
  const readPa = new Float64Array(points.length);
  for (const [i, point] of points.entries()) {
    heldS[i] = point.heldS;
    readPa[i] = point.pressurePa;
  }
  const columns = [
    ...EQUALISATIONS.map(({ tauS }) => heldS.map((atS) => Math.exp(-atS / tauS))),
    ...warming.shapesPa,
    ...stepsS.map((stepS) => heldS.map((atS) => (atS > stepS ? 0 : -1))),
    new Float64Array(points.length).fill(1),
    ...shapes.map((shape) => shapeColumn(shape, heldS, lengthS)),
    readPa.map((pressurePa, i) => pressurePa - (warming.meanPa[i] ?? 0)),
  ];
  const risenPa = Math.max(...readPa.subarray(-5)) - Math.min(...readPa.subarray(0, 5));
  return {
    points,
    shapes,
    setting,
    errors: errorsOf(points, noise),
    columns,
    amountScalePa: Math.max(risenPa, LEAST_AMOUNT_SHARE * allowedRisePa),
    atEnd: Float64Array.from(shapes, (shape) => shapeAt(shape, holdS, lengthS)),
  };
}

/** @param extra how large some of the errors are */
export function whitened(
  problem: Problem,
  extra: { readonly wanderShare: number; readonly scale: number },
): Whitened {
  const rows = problem.points.length;
  const factor = covarianceFactor(problem.errors, extra);
  const columns = whiten(factor, rows, problem.columns);
  const width = columns.length;
  const gram = gramOf(columns);
  let logDeterminant = 0;
  for (let i = 0; i < rows; i += 1) logDeterminant += 2 * Math.log(factor[i * rows + i] ?? 1);
  return { problem, wanderShare: extra.wanderShare, gram, width, logDeterminant };
}

/**
 * Works out the nuisances, each with a normal prior about zero, and the constant.
 * @param equalisationPa deviation of what evens out
 */
export function riseDesign(of: Whitened, equalisationPa: number): Design {
  const { problem, wanderShare, width } = of;
  const { points, shapes, setting, amountScalePa, atEnd } = problem;
  const { lengthS, holdS, stepsS, warming } = setting;
  const firstStep = WARMING + warming.shapesPa.length;
  const constant = firstStep + stepsS.length;
  const firstShape = constant + 1;
  const gram = roomFor(of.gram.length);
  gram.set(of.gram);
  let { logDeterminant } = of;
  for (const [k, { size }] of EQUALISATIONS.entries()) {
    logDeterminant += workOut(gram, width, k, size * equalisationPa);
  }
  for (let k = WARMING; k < firstStep; k += 1) logDeterminant += workOut(gram, width, k, 1);
  for (let k = firstStep; k < constant; k += 1) logDeterminant += workOut(gram, width, k, STEP_PA);
  const weight = Math.max(gram[constant * width + constant] ?? 0, 1e-300);
  const meanOf = (column: number) => (gram[constant * width + column] ?? 0) / weight;
  const last = width - 1;
  const meanPa = meanOf(last);
  const size = shapes.length;
  const startPer = new Float64Array(size);
  const endPerAmount = new Float64Array(size);
  for (let i = 0; i < size; i += 1) {
    const mean = meanOf(firstShape + i);
    startPer[i] = -mean;
    endPerAmount[i] = (atEnd[i] ?? 0) - mean;
  }
  logDeterminant += workOut(gram, width, constant, Infinity);
  const reduced = new Float64Array(size * size);
  const moments = new Float64Array(size);
  for (let i = 0; i < size; i += 1) {
    const from = (firstShape + i) * width + firstShape;
    for (let j = 0; j < size; j += 1) reduced[i * size + j] = gram[from + j] ?? 0;
    moments[i] = gram[from + size] ?? 0;
  }
  const levelledPerAmount = atEnd.slice();
  levelledPerAmount[0] = 0;
  const ahead = Math.max(holdS - lengthS, 0) / holdS;
  const lastPa = points.at(-1)?.pressurePa ?? 0;
  return {
    shapes,
    lengthS,
    size,
    gram: reduced,
    moments,
    total: Math.max(gram[last * width + last] ?? 0, 0),
    logDeterminant,
    amountScalePa,
    startOffsetPa: meanPa,
    startPer,
    endOffsetPa: meanPa,
    endPerAmount,
    endVariance: 1 / weight + ((DRIFT_SHARE + wanderShare) * ahead * lastPa) ** 2,
    levelledPerAmount,
  };
}

/** One design at a time is worked out, of which less is kept. */
let room = new Float64Array(0);

function roomFor(entries: number): Float64Array {
  if (room.length !== entries) room = new Float64Array(entries);
  return room;
}

/**
 * Integrates over one column's coefficient: nothing asks for it again, so only the columns after it are freed of it.
 * @returns what that adds to ln of the determinant
 */
function workOut(gram: Float64Array, width: number, column: number, sigma: number): number {
  if (sigma === 0) return 0;
  const pivot = Math.max((gram[column * width + column] ?? 0) + 1 / (sigma * sigma), 1e-300);
  for (let i = column + 1; i < width; i += 1) {
    const factor = (gram[i * width + column] ?? 0) / pivot;
    if (factor === 0) continue;
    for (let j = column + 1; j < width; j += 1) {
      gram[i * width + j] = (gram[i * width + j] ?? 0) - factor * (gram[column * width + j] ?? 0);
    }
  }
  return Number.isFinite(sigma) ? Math.log(pivot * sigma * sigma) : Math.log(pivot);
}

/** Products of all pairs of columns: two sums side by side, since each addition waits for its own last one. */
function gramOf(columns: readonly Float64Array[]): Float64Array {
  const width = columns.length;
  const gram = new Float64Array(width * width);
  for (let i = 0; i < width; i += 1) {
    const column = columns[i] ?? NONE;
    for (let j = 0; j <= i; j += 2) {
      const one = columns[j] ?? NONE;
      const next = columns[Math.min(j + 1, i)] ?? NONE;
      let product = 0;
      let nextProduct = 0;
      for (let row = 0; row < column.length; row += 1) {
        const value = column[row] ?? 0;
        product += value * (one[row] ?? 0);
        nextProduct += value * (next[row] ?? 0);
      }
      gram[i * width + j] = product;
      gram[j * width + i] = product;
      if (j === i) continue;
      gram[i * width + j + 1] = nextProduct;
      gram[(j + 1) * width + i] = nextProduct;
    }
  }
  return gram;
}

const NONE = new Float64Array(0);
