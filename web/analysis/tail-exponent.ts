/** How fast the pressure falls as a power of time: 0 at a floor, 0.5 to 1 in a tail, more while gas goes. */
import type { PullDownPoint } from './pull-down-points.ts';

const LEAST_POINTS = 6;
/** Of a part so much must have been seen: what was out of range tells no slope. */
const SEEN_SHARE = 0.7;

export interface TailExponent {
  readonly value: number;
  /** Its standard error. */
  readonly error: number;
}

/** −d ln P/d ln t over the latest so many seconds; null with too few points. */
export function exponentOf(
  points: readonly PullDownPoint[],
  sinceS: number,
  lengthS: number,
): TailExponent | null {
  const fromS = (points.at(-1)?.elapsedS ?? 0) - lengthS;
  const late = points.filter(({ elapsedS }) => elapsedS >= fromS && elapsedS > sinceS);
  const seenS = (late.at(-1)?.elapsedS ?? 0) - (late[0]?.elapsedS ?? 0);
  if (late.length < LEAST_POINTS || seenS < SEEN_SHARE * lengthS) return null;
  const x = late.map(({ elapsedS }) => Math.log(elapsedS - sinceS));
  const y = late.map(({ pressurePa }) => Math.log(pressurePa));
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const spread = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const slope = x.reduce((sum, v, i) => sum + (v - meanX) * ((y[i] ?? 0) - meanY), 0) / spread;
  const rest = y.reduce((sum, v, i) => sum + (v - meanY - slope * ((x[i] ?? 0) - meanX)) ** 2, 0);
  return { value: -slope, error: Math.sqrt(rest / (late.length - 2) / spread) };
}
