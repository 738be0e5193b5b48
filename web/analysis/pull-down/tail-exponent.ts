/** How fast the pressure falls as a power of time: 0 at a floor, 0.5 to 1 in a tail, more while gas goes. */
import type { PullDownPoint } from './pull-down-points.ts';

const LEAST_POINTS = 6;
/** Of a part so much must have been seen: what was out of range tells no slope. */
const SEEN_SHARE = 0.7;
/** Rounding leaves less than this of a sum of squares that is none. */
const LEAST_SPREAD = 1e-12;

export interface TailExponent {
  readonly value: number;
  /** Its standard error. */
  readonly error: number;
}

/** Below that it is nearly a floor. */
const FLOOR_BELOW = 0.3;

/** From 0, as any tail falls, to 1 for what doesn't fall at all; 0 where that can't be told. */
export function flatnessOf(exponent: TailExponent | null): number {
  return exponent === null ? 0 : Math.min(Math.max(1 - exponent.value / FLOOR_BELOW, 0), 1);
}

/** −d ln P/d ln t over the latest so many seconds; null with too few points. */
export function exponentOf(
  points: readonly PullDownPoint[],
  sinceS: number,
  lengthS: number,
): TailExponent | null {
  return new TailSlopes(points, sinceS).until(points.length, lengthS);
}

/** The same at many moments of one curve: from running sums, at a few steps each. */
export class TailSlopes {
  readonly #points: readonly PullDownPoint[];
  readonly #sinceS: number;
  /** Of x = ln t, y = ln P, x², xy and y² over the points before each. */
  readonly #sums: Float64Array;

  /** @param points in order of time */
  constructor(points: readonly PullDownPoint[], sinceS: number) {
    this.#points = points;
    this.#sinceS = sinceS;
    this.#sums = new Float64Array(5 * (points.length + 1));
    const top = Math.log(points.at(-1)?.pressurePa ?? 1);
    for (let i = 0; i < points.length; i += 1) {
      const { elapsedS = 0, pressurePa = 1 } = points[i] ?? {};
      const x = elapsedS > sinceS ? Math.log(elapsedS - sinceS) : 0;
      const y = Math.log(pressurePa) - top;
      this.#add(5 * i, x);
      this.#add(5 * i + 1, y);
      this.#add(5 * i + 2, x * x);
      this.#add(5 * i + 3, x * y);
      this.#add(5 * i + 4, y * y);
    }
  }

  /** To the sum that stands there, and that for the next point. */
  #add(at: number, value: number): void {
    this.#sums[at + 5] = (this.#sums[at] ?? 0) + value;
  }

  /** −d ln P/d ln t over so many seconds up to the last of the first `count` points. */
  until(count: number, lengthS: number): TailExponent | null {
    const lastS = this.#points[count - 1]?.elapsedS ?? 0;
    const first = this.#firstFrom(lastS - lengthS, count);
    const size = count - first;
    const seenS = lastS - (this.#points[first]?.elapsedS ?? lastS);
    if (size < LEAST_POINTS || seenS < SEEN_SHARE * lengthS) return null;
    const x = this.#between(first, count, 0) / size;
    const y = this.#between(first, count, 1) / size;
    const spread = Math.max(this.#between(first, count, 2) - size * x * x, LEAST_SPREAD);
    const slope = (this.#between(first, count, 3) - size * x * y) / spread;
    const squares = this.#between(first, count, 4);
    const rest = Math.max(squares - size * y * y - slope * slope * spread, 0);
    return { value: -slope, error: Math.sqrt(rest / (size - 2) / spread) };
  }

  /** One of the sums, over the points from one on to before another. */
  #between(first: number, end: number, which: number): number {
    return (this.#sums[5 * end + which] ?? 0) - (this.#sums[5 * first + which] ?? 0);
  }

  /** The first of the first `count` points that is no earlier, by halving. */
  #firstFrom(fromS: number, count: number): number {
    let [low, high] = [0, count];
    while (low < high) {
      const middle = (low + high) >> 1;
      const elapsedS = this.#points[middle]?.elapsedS ?? Infinity;
      if (elapsedS >= fromS && elapsedS > this.#sinceS) high = middle;
      else low = middle + 1;
    }
    return low;
  }
}
