/**
 * What a changing temperature does to the pressure of a valved-off system.
 *
 * Dry gas in a closed volume follows the absolute temperature: 0.34 % for each kelvin near 20 °C. Water
 * in balance with its vapour follows the vapour pressure: 6.4 % for each kelvin there (IAPWS R7-97:
 * 2339 Pa at 20 °C, 2488 Pa at 21 °C). How much of the gas does, is not known.
 */
import type { TimeBin } from './bin-level.ts';
import type { RisePoint } from './rise-points.ts';

/** An error of all points at once: deviation one along `shapePa`, after the mean has been taken off. */
export interface Warming {
  readonly meanPa: Float64Array;
  readonly shapePa: Float64Array;
}

const WATER_PER_K = 0.064;
/** The share of the pressure that follows as water does: mean and deviation. Settings of ours. */
const SHARE = { mean: 0.3, sigma: 0.3 } as const;
/** Where no temperature is known: a steady change of so much, K/h, is nothing unusual. */
const UNKNOWN_K_PER_H = 2;
/** A sensor's thermometer is smoothed over so long either side, s; it shows tenths. */
const SMOOTHED_S = 45;

export function warmingOf(
  points: readonly RisePoint[],
  bins: readonly TimeBin[],
  isolatedS: number,
): Warming {
  const warmedK = warmedAt(points, bins, isolatedS);
  const mean = warmedK
    ? points.map(({ pressurePa }, i) => SHARE.mean * WATER_PER_K * pressurePa * (warmedK[i] ?? 0))
    : points.map(() => 0);
  const shape = points.map(({ pressurePa, heldS }, i) => {
    const perK = WATER_PER_K * pressurePa;
    return warmedK
      ? SHARE.sigma * perK * (warmedK[i] ?? 0)
      : SHARE.mean * perK * ((UNKNOWN_K_PER_H * heldS) / 3600);
  });
  return { meanPa: Float64Array.from(mean), shapePa: Float64Array.from(shape) };
}

/** How much warmer than at the first point, K; null where no thermometer tells. */
function warmedAt(
  points: readonly RisePoint[],
  bins: readonly TimeBin[],
  isolatedS: number,
): number[] | null {
  const times: number[] = [];
  const sums = [0];
  for (const { elapsedS, temperatureC } of bins) {
    if (temperatureC === null) continue;
    times.push(elapsedS - isolatedS);
    sums.push((sums.at(-1) ?? 0) + temperatureC);
  }
  if (times.length < 5) return null;
  let from = 0;
  let to = 0;
  const smoothed = points.map(({ heldS }) => {
    while (from < times.length - 1 && (times[from] ?? 0) < heldS - SMOOTHED_S) from += 1;
    while (to < times.length && (times[to] ?? 0) <= heldS + SMOOTHED_S) to += 1;
    const count = Math.max(to - from, 1);
    return ((sums[from + count] ?? sums.at(-1) ?? 0) - (sums[from] ?? 0)) / count;
  });
  const first = smoothed[0] ?? 0;
  return smoothed.map((value) => value - first);
}
