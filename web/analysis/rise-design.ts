/** The readings of a hold as a linear problem in the shapes of a rise, freed of noise that hangs together. */
import { covarianceFactor, whiten } from './rise-covariance.ts';
import type { Noise } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';
import type { Warming } from './rise-warming.ts';
import { shapeAt, type Shape } from './rise-shapes.ts';

export interface Design {
  readonly shapes: readonly Shape[];
  /** Places of the shapes that level off, and of those that sink. */
  readonly releases: readonly number[];
  readonly sinks: readonly number[];
  /** A coefficient of a shape (but the leak's) is what it has added by then, Pa. */
  readonly lengthS: number;
  readonly size: number;
  /** Normal equations of the whitened problem, with the constant worked out. */
  readonly gram: Float64Array;
  readonly moments: Float64Array;
  readonly total: number;
  /** ln of the determinant of the covariance, that of the constant's precision included. */
  readonly logDeterminant: number;
  /** How much is to be expected of an amount, Pa. */
  readonly amountScalePa: number;
  /** The pressure at isolation is `startOffsetPa` + Σ startPer·coefficient. */
  readonly startOffsetPa: number;
  readonly startPer: Float64Array;
  /** The same of the pressure at the end of the hold. */
  readonly endOffsetPa: number;
  readonly endPerAmount: Float64Array;
  readonly endVariance: number;
  /** What each has levelled off by the end of the hold. */
  readonly levelledPerAmount: Float64Array;
}

interface DesignOptions {
  readonly lengthS: number;
  readonly holdS: number;
  readonly allowedRisePa: number;
  /** By how much the noise is larger than its estimate says. */
  readonly scale: number;
  /** Standard deviation of what wanders over minutes, as a share of the pressure. */
  readonly wanderShare: number;
  readonly warming: Warming;
}

/** Amounts of a fifth of the allowed rise are to be expected of every system. A setting of ours. */
const LEAST_AMOUNT_SHARE = 0.2;
/** How much the reading may wander on until the end of the hold, as a share of it. */
const DRIFT_SHARE = 1e-3;

export function riseDesign(
  points: readonly RisePoint[],
  noise: Noise,
  shapes: readonly Shape[],
  { lengthS, holdS, allowedRisePa, scale, wanderShare, warming }: DesignOptions,
): Design {
  const rows = points.length;
  const factor = covarianceFactor(points, noise, { wanderShare, scale, shapePa: warming.shapePa });
  const constant = new Float64Array(rows).fill(1);
  whiten(factor, rows, constant);
  const values = Float64Array.from(
    points,
    ({ pressurePa }, i) => pressurePa - (warming.meanPa[i] ?? 0),
  );
  whiten(factor, rows, values);
  const columns = shapes.map((shape) => {
    const column = Float64Array.from(points, ({ heldS }) => shapeAt(shape, heldS, lengthS));
    whiten(factor, rows, column);
    return column;
  });
  const weight = dot(constant, constant);
  const meanPa = dot(constant, values) / weight;
  const means = Float64Array.from(columns, (column) => dot(constant, column) / weight);
  remove(values, constant, meanPa);
  columns.forEach((column, i) => remove(column, constant, means[i] ?? 0));
  const size = shapes.length;
  const gram = new Float64Array(size * size);
  for (const [i, left] of columns.entries()) {
    for (const [j, right] of columns.slice(0, i + 1).entries()) {
      const product = dot(left, right);
      gram[i * size + j] = product;
      gram[j * size + i] = product;
    }
  }
  const pressures = points.map(({ pressurePa }) => pressurePa);
  const risenPa = Math.max(...pressures.slice(-5)) - Math.min(...pressures.slice(0, 5));
  const atEnd = shapes.map((shape) => shapeAt(shape, holdS, lengthS));
  const lastS = points.at(-1)?.heldS ?? 0;
  const ahead = Math.max(holdS - lastS, 0) / holdS;
  const lastPa = pressures.at(-1) ?? 0;
  return {
    shapes,
    releases: placesOf(shapes, 'release'),
    sinks: placesOf(shapes, 'sinking'),
    lengthS,
    size,
    gram,
    moments: Float64Array.from(columns, (column) => dot(column, values)),
    total: dot(values, values),
    logDeterminant: logDeterminant(factor, rows) + Math.log(weight),
    amountScalePa: Math.max(risenPa, LEAST_AMOUNT_SHARE * allowedRisePa),
    startOffsetPa: meanPa,
    startPer: means.map((value) => -value),
    endOffsetPa: meanPa,
    endPerAmount: Float64Array.from(atEnd, (value, i) => value - (means[i] ?? 0)),
    endVariance: 1 / weight + ((DRIFT_SHARE + wanderShare) * ahead * lastPa) ** 2,
    levelledPerAmount: Float64Array.from(atEnd, (value, i) => (i === 0 ? 0 : value)),
  };
}

function placesOf(shapes: readonly Shape[], kind: Shape['kind']): number[] {
  return shapes.flatMap((shape, i) => (shape.kind === kind ? [i] : []));
}

function remove(column: Float64Array, constant: Float64Array, amount: number): void {
  for (let i = 0; i < column.length; i += 1) {
    column[i] = (column[i] ?? 0) - amount * (constant[i] ?? 0);
  }
}

function dot(left: Float64Array, right: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < left.length; i += 1) sum += (left[i] ?? 0) * (right[i] ?? 0);
  return sum;
}

function logDeterminant(factor: Float64Array, rows: number): number {
  let sum = 0;
  for (let i = 0; i < rows; i += 1) sum += 2 * Math.log(factor[i * rows + i] ?? 1);
  return sum;
}
