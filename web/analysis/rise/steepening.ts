/**
 * A rise that grows steeper. What a closed system gives off slows down and an inflow stays the same: neither
 * steepens. But gas that comes in near the sensor and goes on, through a narrow passage, to parts that
 * stand lower, or vapour that cooling metal takes up again, hides part of an inflow, and ever less of it.
 */
import type { Estimate } from '../conclusions.ts';
import type { RisePoint } from './rise-points.ts';
import type { Warming } from './rise-warming.ts';

export interface Steepening {
  /** The slope at the end of the stretch, Pa/s. */
  readonly presentPaPerS: number;
  /** By how much it has grown over the stretch, and the standard error of that, Pa/s. */
  readonly grownPaPerS: number;
  readonly sigmaPaPerS: number;
}

/** From so many of its standard errors on a rise counts as growing steeper. A setting of ours. */
export const STEEPENS_SIGMAS = 1.5;
/**
 * What hides the inflow by e^(−t/τ) has so many times the growth that was seen still before it, where τ is
 * twice as long as what was seen: the slowest that is reckoned with in `rise-shapes.ts`.
 */
const STILL_TO_GROW = 1 / Math.expm1(1 / 2);
/** The upper end of a growth's 90 % interval, in standard errors. */
const SURE = 1.645;
/** Before that a valve's turning, lines and the sensor's passage bend the curve either way, s. */
const FROM_S = 60;
const LEAST_POINTS = 6;
/** Line and curvature. */
const PARAMETERS = 3;
/** What wanders does not average out: a point of any number of readings is no better than one of so many. */
const MOST_COUNTED = 25;

/** What else bends a hold, and how well it was read. */
interface Disturbed {
  /** Since isolation, s: the hold begins there, or at its last step. */
  readonly startS: number;
  /** Of a single reading. */
  readonly noisePa: number;
  /** At each of the points. */
  readonly warming: Warming;
}

/**
 * A parabola through what warming leaves of the readings, by least squares; the noise's memory widens its error as
 * in `bend.ts`, and what warming may have done beyond its mean is part of it.
 *
 * @returns null where there are too few readings
 */
export function steepeningOf(
  points: readonly RisePoint[],
  { startS, noisePa, warming }: Disturbed,
): Steepening | null {
  const first = points.findIndex(({ heldS }) => heldS >= startS + FROM_S);
  const seen = first === -1 ? [] : points.slice(first);
  const fromS = seen[0]?.heldS ?? 0;
  const lengthS = (seen.at(-1)?.heldS ?? 0) - fromS;
  if (seen.length < LEAST_POINTS || lengthS <= 0) return null;
  const parabola = parabolaOf(
    seen.map(({ heldS }) => (heldS - fromS) / lengthS),
    seen.map(({ count }) => 1 / (1 / count + 1 / MOST_COUNTED)),
  );
  const readPa = seen.map(({ pressurePa }, i) => pressurePa - (warming.meanPa[first + i] ?? 0));
  const { slope, bend, left } = parabola.through(readPa);
  let [own, neighbours] = [0, 0];
  for (const [i, value] of left.entries()) {
    own += value ** 2;
    neighbours += i === 0 ? 0 : value * (left[i - 1] ?? 0);
  }
  const memory = own > 0 ? Math.min(Math.max(neighbours / own, 0), 0.9) : 0;
  const variance = Math.max(parabola.squares(left) / (seen.length - PARAMETERS), noisePa ** 2);
  let bendVariance = (variance * (1 + memory)) / (1 - memory) / parabola.bendWeight;
  for (const shapePa of warming.shapesPa) {
    bendVariance += parabola.through([...shapePa.subarray(first)]).bend ** 2;
  }
  return {
    presentPaPerS: slope / lengthS,
    grownPaPerS: (2 * bend) / lengthS,
    sigmaPaPerS: (2 * Math.sqrt(bendVariance)) / lengthS,
  };
}

/** The inflow with what a steepening rise may hide of it: its interval ends where that is. */
export function openedBy(steepening: Steepening | null, leakPaPerS: Estimate): Estimate {
  if (steepening === null || !steepens(steepening, STEEPENS_SIGMAS)) return leakPaPerS;
  return { ...leakPaPerS, high: Math.max(leakPaPerS.high, mayBecomePaPerS(steepening)) };
}

/** The slope that such a rise may come to, at most. */
export function mayBecomePaPerS({ presentPaPerS, grownPaPerS, sigmaPaPerS }: Steepening): number {
  return presentPaPerS + STILL_TO_GROW * (grownPaPerS + SURE * sigmaPaPerS);
}

export function steepens({ grownPaPerS, sigmaPaPerS }: Steepening, sigmas: number): boolean {
  return grownPaPerS > sigmas * sigmaPaPerS;
}

interface Parabola {
  /** Slope at the end and coefficient of the square, for times from 0 to 1, and what is left of the values. */
  readonly through: (values: readonly number[]) => {
    readonly slope: number;
    readonly bend: number;
    readonly left: readonly number[];
  };
  /** Weighed sum of squares. */
  readonly squares: (values: readonly number[]) => number;
  /** One over the variance of `bend`, were that of a value of weight 1 one. */
  readonly bendWeight: number;
}

/** Each column is freed of those before it, so that each coefficient stands for itself. */
function parabolaOf(times: readonly number[], weights: readonly number[]): Parabola {
  const product = (a: readonly number[], b: readonly number[]) =>
    weights.reduce((sum, weight, i) => sum + weight * (a[i] ?? 0) * (b[i] ?? 0), 0);
  const along = (values: readonly number[], column: readonly number[]) =>
    product(values, column) / product(column, column);
  const level = times.map(() => 1);
  const middle = along(times, level);
  const line = times.map((time) => time - middle);
  const square = times.map((time) => time ** 2);
  const [squareMean, squareSlope] = [along(square, level), along(square, line)];
  const curve = square.map((value, i) => value - squareMean - squareSlope * (line[i] ?? 0));
  return {
    through: (values) => {
      const mean = along(values, level);
      const slope = along(values, line);
      const bend = along(values, curve);
      const left = values.map(
        (value, i) => value - mean - slope * (line[i] ?? 0) - bend * (curve[i] ?? 0),
      );
      return { slope: slope + bend * (2 - squareSlope), bend, left };
    },
    squares: (values) => product(values, values),
    bendWeight: product(curve, curve),
  };
}
