/**
 * A rise that grows steeper. What a closed system gives off slows down and an inflow stays the same: neither
 * steepens. But gas that comes in near the sensor and goes on, through a narrow passage, to parts that
 * stand lower, or vapour that cooling metal takes up again, hides part of an inflow, and ever less of it.
 */
import type { RisePoint } from './rise-points.ts';

export interface Steepening {
  /** The slope at the end of the stretch, Pa/s. */
  readonly presentPaPerS: number;
  /** By how much it has grown over the stretch, and the standard error of that, Pa/s. */
  readonly grownPaPerS: number;
  readonly sigmaPaPerS: number;
}

/** Before that a valve's turning, lines and the sensor's passage bend the curve either way, s. */
const FROM_S = 60;
const LEAST_POINTS = 10;
/** Line and curvature. */
const PARAMETERS = 3;
/** What wanders does not average out: a point of any number of readings is no better than one of so many. */
const MOST_COUNTED = 25;

/**
 * A parabola through the readings, by least squares; the noise's memory widens its error as in `bend.ts`.
 *
 * @param points of a hold, or of what follows its last step
 * @param noisePa of a single reading
 * @returns null where there are too few readings
 */
export function steepeningOf(points: readonly RisePoint[], noisePa: number): Steepening | null {
  const beginS = (points[0]?.heldS ?? 0) + FROM_S;
  const seen = points.filter(({ heldS }) => heldS >= beginS);
  const fromS = seen[0]?.heldS ?? 0;
  const lengthS = (seen.at(-1)?.heldS ?? 0) - fromS;
  if (seen.length < LEAST_POINTS || lengthS <= 0) return null;
  const part = seen.map(({ heldS }) => (heldS - fromS) / lengthS);
  const weight = seen.map(({ count }) => 1 / (1 / count + 1 / MOST_COUNTED));
  const meanOf = (value: (at: number) => number, times: (at: number) => number = () => 1) => {
    let [sum, of] = [0, 0];
    for (const [i, w] of weight.entries()) {
      sum += w * value(i) * times(i);
      of += w * times(i) ** 2;
    }
    return sum / of;
  };
  const pressure = (i: number) => seen[i]?.pressurePa ?? 0;
  // Each column is freed of those before it, so that each coefficient stands for itself.
  const middle = meanOf((i) => part[i] ?? 0);
  const line = (i: number) => (part[i] ?? 0) - middle;
  const squareMean = meanOf((i) => (part[i] ?? 0) ** 2);
  const squareSlope = meanOf((i) => (part[i] ?? 0) ** 2, line);
  const curve = (i: number) => (part[i] ?? 0) ** 2 - squareMean - squareSlope * line(i);
  const meanPa = meanOf(pressure);
  const slopePa = meanOf(pressure, line);
  const curvePa = meanOf(pressure, curve);
  const left = seen.map((_, i) => pressure(i) - meanPa - slopePa * line(i) - curvePa * curve(i));
  let [squares, own, neighbours, curveWeight] = [0, 0, 0, 0];
  for (const [i, w] of weight.entries()) {
    squares += w * (left[i] ?? 0) ** 2;
    own += (left[i] ?? 0) ** 2;
    neighbours += i === 0 ? 0 : (left[i] ?? 0) * (left[i - 1] ?? 0);
    curveWeight += w * curve(i) ** 2;
  }
  const memory = own > 0 ? Math.min(Math.max(neighbours / own, 0), 0.9) : 0;
  const variance = Math.max(squares / (seen.length - PARAMETERS), noisePa ** 2);
  const sigma = Math.sqrt((variance * (1 + memory)) / (1 - memory) / curveWeight);
  return {
    presentPaPerS: (slopePa + curvePa * (2 - squareSlope)) / lengthS,
    grownPaPerS: (2 * curvePa) / lengthS,
    sigmaPaPerS: (2 * sigma) / lengthS,
  };
}
