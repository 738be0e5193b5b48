/** The readings of a hold as a linear problem in the shapes of a rise, freed of all else. */
import { factorOf, whiten, type Covariance, type Sizes } from './rise-covariance.ts';
import type { RisePoint } from './rise-points.ts';
import { shapeAt, type Shape } from './rise-shapes.ts';
import type { Warming } from './rise-warming.ts';
import { WorkedOut } from './worked-out.ts';

/** The hold as it was seen. */
export interface SeenHold {
  readonly points: readonly RisePoint[];
  readonly covariance: Covariance;
  readonly shapes: readonly Shape[];
  /** So long, s: a coefficient of a shape (but the leak's) is what it has added by then. */
  readonly lengthS: number;
  readonly warming: Warming;
  /** Moments since isolation at which the pressure jumped by itself, s. */
  readonly stepsS: readonly number[];
}

/**
 * Pressures even out along lines and through a sensor's passage, upward or downward: time constants
 * from seconds to minutes, s, and how large they are to one another.
 */
const EQUALISATIONS = [
  { tauS: 7, size: 1 },
  { tauS: 17, size: 1 },
  { tauS: 40, size: 0.7 },
  { tauS: 95, size: 0.4 },
] as const;
/** A step may be of any size, Pa. */
const STEP_PA = 1000;

/** What the readings say of everything, once the errors are independent and of size one. */
export interface Whitened {
  readonly hold: SeenHold;
  readonly sizes: Sizes;
  /** Products of all columns: nuisances, constant, shapes, readings. */
  readonly gram: Float64Array;
  readonly width: number;
  readonly logDeterminant: number;
}

export function whitenedHold(hold: SeenHold, sizes: Sizes): Whitened {
  const { points, covariance, shapes, lengthS, warming, stepsS } = hold;
  const factor = factorOf(covariance, sizes);
  const columnOf = (at: (heldS: number) => number) =>
    Float64Array.from(points, ({ heldS }) => at(heldS));
  const columns = [
    ...EQUALISATIONS.map(({ tauS }) => columnOf((heldS) => Math.exp(-heldS / tauS))),
    ...warming.shapesPa.map((shapePa) => Float64Array.from(shapePa)),
    ...stepsS.map((stepS) => columnOf((heldS) => (heldS > stepS ? 0 : -1))),
    columnOf(() => 1),
    ...shapes.map((shape) => columnOf((heldS) => shapeAt(shape, heldS, lengthS))),
    Float64Array.from(points, ({ pressurePa }, i) => pressurePa - (warming.meanPa[i] ?? 0)),
  ];
  const width = columns.length;
  const gram = new Float64Array(width * width);
  for (const [i, column] of columns.entries()) {
    whiten(factor, column);
    for (let j = 0; j <= i; j += 1) {
      const product = dot(column, columns[j] ?? column);
      gram[i * width + j] = product;
      gram[j * width + i] = product;
    }
  }
  let logDeterminant = 0;
  for (let i = 0; i < points.length; i += 1) {
    logDeterminant += 2 * Math.log(factor[i * points.length + i] ?? 1);
  }
  return { hold, sizes, gram, width, logDeterminant };
}

/** The problem with everything but the shapes worked out. */
export interface Design {
  readonly hold: SeenHold;
  readonly sizes: Sizes;
  /** How many shapes. */
  readonly size: number;
  /** Normal equations in the shapes' coefficients, row by row. */
  readonly gram: Float64Array;
  readonly moments: Float64Array;
  readonly total: number;
  /** ln of the determinant of the readings' covariance, with all that was worked out in it. */
  readonly logDeterminant: number;
  /** The settled pressure at isolation, Pa: this, plus Σ startPer·coefficient, with this variance. */
  readonly startPa: number;
  readonly startPer: Float64Array;
  readonly startVariance: number;
  /** What was worked out, for given coefficients of the shapes. */
  readonly nuisancesFor: (coefficients: Float64Array) => Nuisances;
}

export interface Nuisances {
  /** What evens out at first: above (or below) the settled pressure at isolation, Pa. */
  readonly equalisationAt: (heldS: number) => number;
  /** Sizes of the steps, Pa. */
  readonly stepsPa: readonly number[];
}

/** @param equalisationPa standard deviation of what evens out */
export function riseDesign(whitened: Whitened, equalisationPa: number): Design {
  const { hold, sizes, width } = whitened;
  const { shapes, warming, stepsS } = hold;
  const worked = new WorkedOut(whitened.gram, width);
  const deviations = [
    ...EQUALISATIONS.map(({ size }) => size * equalisationPa),
    ...warming.shapesPa.map(() => 1),
    ...stepsS.map(() => STEP_PA),
  ];
  for (const [column, sigma] of deviations.entries()) worked.workOut(column, sigma);
  const constant = deviations.length;
  worked.workOut(constant, Infinity);
  const size = shapes.length;
  const first = constant + 1;
  const last = width - 1;
  const gram = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    const from = (first + i) * width + first;
    gram.set(worked.gram.subarray(from, from + size), i * size);
  }
  const start = worked.solutionOf(constant);
  return {
    hold,
    sizes,
    size,
    gram,
    moments: Float64Array.from(shapes, (_, i) => worked.gram[(first + i) * width + last] ?? 0),
    total: Math.max(worked.gram[last * width + last] ?? 0, 0),
    logDeterminant: whitened.logDeterminant + worked.logDeterminant,
    startPa: start.row[last] ?? 0,
    startPer: start.row.slice(first, last).map((value) => -value),
    startVariance: start.variance,
    nuisancesFor: (coefficients) => {
      const all = worked.allFor(coefficients, first);
      return {
        equalisationAt: (heldS) =>
          EQUALISATIONS.reduce(
            (sum, { tauS }, k) => sum + (all[k] ?? 0) * Math.exp(-heldS / tauS),
            0,
          ),
        stepsPa: stepsS.map((_, k) => all[constant - stepsS.length + k] ?? 0),
      };
    },
  };
}

function dot(left: Float64Array, right: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < left.length; i += 1) sum += (left[i] ?? 0) * (right[i] ?? 0);
  return sum;
}
