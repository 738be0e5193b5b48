/**
 * What a changing temperature does to the pressure of a valved-off system.
 *
 * Dry gas in a closed volume follows the absolute temperature: 0.34 % for each kelvin near 20 °C. Water
 * follows its vapour pressure: 6.4 % for each kelvin there (IAPWS R7-97: 2339 Pa at 20 °C, 2488 Pa at
 * 21 °C): at once where it is in balance with its vapour, and by how fast it comes where it isn't. How
 * much of the gas is water, is not known.
 */
import type { TimeBin } from '../readings/bin-level.ts';
import type { RisePoint } from './rise-points.ts';

export interface Warming {
  /** What is to be expected of it, Pa at each point. */
  readonly meanPa: Float64Array;
  /** Errors of all points together, each as large as one standard deviation of it, Pa. */
  readonly shapesPa: readonly Float64Array[];
}

interface SeenWarming extends Warming {
  /** How much warmer than at the first point, K at each; null where no thermometer tells. */
  readonly warmedK: readonly number[] | null;
}

const WATER_PER_K = 0.064;
/** The share of the pressure that follows as water in balance does: mean and deviation. Settings of ours. */
const BALANCED = { mean: 0.15, sigma: 0.3 } as const;
/** The share of the rise that comes as water out of balance does. Settings of ours. */
const COMING = { mean: 0.3, sigma: 0.4 } as const;
/** A gauge's zero moves with its temperature by about so much, Pa/K: half a micron. From memory. */
const ZERO_PA_PER_K = 0.07;
/** Where no temperature is known: metal that changes steadily by so much, K/h, is nothing unusual. */
const UNKNOWN_K_PER_H = 1;
/**
 * And by so much within minutes, by a cloud, a fan or a door. Leaks of 1.2 and 1.9 times the limit were passed while the
 * metal of simulated rigs cooled by 2.3 and 2.6 K in five minutes. Less is taken here, since not all of the gas is water
 * in balance, as it counts below; a larger swing of more water may still hide a leak. A setting of ours.
 */
const UNKNOWN_SWING_K = 1;
/** A sensor's thermometer is smoothed over so long either side, s; it shows tenths. */
const SMOOTHED_S = 45;

export function warmingOf(
  points: readonly RisePoint[],
  bins: readonly TimeBin[],
  isolatedS: number,
): SeenWarming {
  const known = warmedAt(points, bins, isolatedS);
  const warmedK = known ?? points.map(({ heldS }) => (UNKNOWN_K_PER_H * heldS) / 3600);
  const balanced = Float64Array.from(
    points,
    ({ pressurePa }, i) => WATER_PER_K * pressurePa * (warmedK[i] ?? 0),
  );
  const coming = comingPa(points, warmedK);
  const scaled = (shape: Float64Array, by: number) => shape.map((value) => by * value);
  if (!known) {
    return {
      meanPa: new Float64Array(points.length),
      shapesPa: [
        scaled(balanced, BALANCED.sigma),
        scaled(coming, Math.hypot(COMING.mean, COMING.sigma)),
      ],
      warmedK: null,
    };
  }
  return {
    meanPa: balanced.map((value, i) => BALANCED.mean * value + COMING.mean * (coming[i] ?? 0)),
    shapesPa: [
      scaled(balanced, BALANCED.sigma),
      scaled(coming, COMING.sigma),
      Float64Array.from(warmedK, (value) => ZERO_PA_PER_K * value),
    ],
    warmedK: known,
  };
}

/** An inflow that the temperature's coming and going could hide. */
export interface HiddenByTemperature {
  readonly paPerS: number;
  /** False: no thermometer tells, and it is what a usual swing could hide. */
  readonly isMeasured: boolean;
}

/**
 * The inflow that the temperature's coming and going could hide, were all of the gas water in balance with the metal:
 * cooling takes it up again, and what bends as it does looks like gas that is given off. Over all of the hold, or over
 * its latter half, if that is more: an inflow is told by what has not bent by then.
 *
 * @param fromS since isolation, s: the hold begins there, or at its last step
 */
export function hiddenByTemperature(
  points: readonly RisePoint[],
  { warmedK }: Pick<SeenWarming, 'warmedK'>,
  fromS: number,
): HiddenByTemperature {
  const last = points.at(-1);
  if (last === undefined || last.heldS <= fromS) return { paPerS: 0, isMeasured: warmedK !== null };
  const hidden = (swingK: number, sinceS: number) =>
    (WATER_PER_K * last.pressurePa * swingK) / (last.heldS - sinceS);
  if (warmedK === null) return { paPerS: hidden(UNKNOWN_SWING_K, fromS), isMeasured: false };
  const hiddenSince = (sinceS: number) => {
    const seenK = warmedK.filter((_, i) => (points[i]?.heldS ?? 0) >= sinceS);
    return hidden(Math.max(...seenK) - Math.min(...seenK), sinceS);
  };
  const middleS = (fromS + last.heldS) / 2;
  return { paPerS: Math.max(hiddenSince(fromS), hiddenSince(middleS)), isMeasured: true };
}

/** What more has come because it was warmer while it came: ∫ 6.4 %/K · ΔT dP. */
function comingPa(points: readonly RisePoint[], warmedK: readonly number[]): Float64Array {
  const found = new Float64Array(points.length);
  let sumPa = 0;
  for (const [i, { pressurePa }] of points.entries()) {
    const beforePa = points[i - 1]?.pressurePa ?? pressurePa;
    sumPa += WATER_PER_K * (warmedK[i] ?? 0) * (pressurePa - beforePa);
    found[i] = sumPa;
  }
  return found;
}

/** How much warmer than at the first point, K; null where no thermometer tells. */
function warmedAt(
  points: readonly RisePoint[],
  bins: readonly TimeBin[],
  isolatedS: number,
): number[] | null {
  const times = new Float64Array(bins.length);
  const sums = new Float64Array(bins.length + 1);
  let known = 0;
  for (const { elapsedS, temperatureC } of bins) {
    if (temperatureC === null) continue;
    times[known] = elapsedS - isolatedS;
    sums[known + 1] = (sums[known] ?? 0) + temperatureC;
    known += 1;
  }
  if (known < 5) return null;
  let from = 0;
  let to = 0;
  const smoothed = points.map(({ heldS }) => {
    while (from < known - 1 && (times[from] ?? 0) < heldS - SMOOTHED_S) from += 1;
    while (to < known && (times[to] ?? 0) <= heldS + SMOOTHED_S) to += 1;
    const count = Math.max(to - from, 1);
    return ((sums[Math.min(from + count, known)] ?? 0) - (sums[from] ?? 0)) / count;
  });
  const first = smoothed[0] ?? 0;
  return smoothed.map((value) => value - first);
}
