/**
 * How much less one sensor shows than another one at the same time: what the hoses and valves between
 * them cost, or what the two gauges disagree by. Pure.
 */
import { median, medianAbsoluteDeviation } from 'simple-statistics';

/** NaN where the sensor measured nothing. */
export interface SidePoint {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

export interface SideDifference {
  /** The other one's pressure less that of the first, Pa: the median over the latest seconds. */
  readonly differencePa: number;
  /** How far single differences lie about it, one standard deviation as a normal scatter has it, Pa. */
  readonly scatterPa: number;
  /** What the two show, Pa: medians over the same moments. */
  readonly firstPa: number;
  readonly otherPa: number;
}

/** The latest so many seconds are compared: a setting of ours, long enough for sensors at 0.5 Hz. */
export const COMPARED_S = 10;
/** Between two readings farther apart than this nobody knows what a sensor would have shown, s: ours. */
export const WIDEST_S = 5;
/** Fewer moments than this tell nothing of the scatter: ours. */
const FEWEST = 3;
/** Median absolute deviation of a normal distribution: 0.6745 of its standard deviation. */
const MAD_TO_SIGMA = 1 / 0.6745;

/**
 * The clocks are matched by reading the other one's curve, straight between its readings, at each
 * moment at which the first one measured.
 * @param first each in order of time, from at least `COMPARED_S + WIDEST_S` before the end on
 * @returns null where either is silent, out of range, or has too little to compare
 */
export function sideDifference(
  first: readonly SidePoint[],
  other: readonly SidePoint[],
): SideDifference | null {
  const lastFirst = first.at(-1);
  const lastOther = other.at(-1);
  if (lastFirst === undefined || lastOther === undefined) return null;
  const endS = Math.max(lastFirst.elapsedS, lastOther.elapsedS);
  for (const last of [lastFirst, lastOther]) {
    if (Number.isNaN(last.pressurePa) || endS - last.elapsedS > WIDEST_S) return null;
  }
  const compared = first.filter(({ elapsedS }) => elapsedS > endS - COMPARED_S);
  const matched = compared.flatMap(({ elapsedS, pressurePa }) => {
    const otherPa = shownAt(other, elapsedS);
    const isMeasured = !Number.isNaN(pressurePa) && !Number.isNaN(otherPa);
    return isMeasured ? [{ firstPa: pressurePa, otherPa }] : [];
  });
  if (matched.length < Math.max(FEWEST, compared.length / 2)) return null;
  const differences = matched.map(({ firstPa, otherPa }) => otherPa - firstPa);
  return {
    differencePa: median(differences),
    scatterPa: medianAbsoluteDeviation(differences) * MAD_TO_SIGMA,
    firstPa: median(matched.map(({ firstPa }) => firstPa)),
    otherPa: median(matched.map(({ otherPa }) => otherPa)),
  };
}

/** Straight between the readings before and after; NaN where one is missing or they are far apart. */
function shownAt(points: readonly SidePoint[], elapsedS: number): number {
  const at = points.findIndex((point) => point.elapsedS >= elapsedS);
  const after = points[at];
  if (after === undefined) return Number.NaN;
  if (after.elapsedS === elapsedS) return after.pressurePa;
  const before = points[at - 1];
  if (before === undefined || after.elapsedS - before.elapsedS > WIDEST_S) return Number.NaN;
  const share = (elapsedS - before.elapsedS) / (after.elapsedS - before.elapsedS);
  return before.pressurePa + (after.pressurePa - before.pressurePa) * share;
}
