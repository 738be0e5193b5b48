/** The readings of a hold, thinned for the fit: every early second, wider steps later. */
import { median } from './median.ts';
import { SIGMA_PER_MAD, type Sample } from './samples.ts';

/** A point of the hold; times count from isolation. */
export interface RisePoint {
  readonly heldS: number;
  readonly pressurePa: number;
  /** Variance of its pressure as far as the scatter between neighbours tells, Pa². */
  readonly variancePa2: number;
}

/** Groups grow with the time since isolation, ×1.03: 140 points in 15 min, 280 in a day. */
const GROWTH = 0.03;
/** No thermal gauge reads more finely than a thousandth of its reading. From memory. */
const LEAST_RELATIVE_SIGMA = 1e-3;
/** One count of the standard's Pressure characteristic is 0.1 Pa; uniform rounding: 0.1/√12. */
const LEAST_SIGMA_PA = 0.01;

/** @param samples after isolation, in order of time */
export function risePoints(samples: readonly Sample[], isolatedS: number): RisePoint[] {
  const varianceOf = scatter(samples);
  const points: RisePoint[] = [];
  let group: Sample[] = [];
  for (const sample of samples) {
    const firstS = group[0]?.elapsedS ?? sample.elapsedS;
    const widthS = Math.max(1, GROWTH * (firstS - isolatedS));
    if (group.length > 0 && sample.elapsedS - firstS >= widthS) {
      points.push(pointOf(group, isolatedS, varianceOf));
      group = [];
    }
    group.push(sample);
  }
  if (group.length > 0) points.push(pointOf(group, isolatedS, varianceOf));
  return points;
}

function pointOf(
  group: readonly Sample[],
  isolatedS: number,
  varianceOf: (pressurePa: number) => number,
): RisePoint {
  const mean = (pick: (sample: Sample) => number) =>
    group.reduce((sum, sample) => sum + pick(sample), 0) / group.length;
  const pressurePa = mean((sample) => sample.pressurePa);
  return {
    heldS: mean((sample) => sample.elapsedS) - isolatedS,
    pressurePa,
    variancePa2: varianceOf(pressurePa) / group.length,
  };
}

/**
 * Scatter of a single sample as variance a² + (r·P)², from second differences: a slope leaves none,
 * and a curve on the scale of three samples hardly any. The lower and the upper half of the
 * pressures tell the constant part and the proportional part apart.
 */
function scatter(samples: readonly Sample[]): (pressurePa: number) => number {
  const differences: { pressurePa: number; sizePa: number }[] = [];
  for (let i = 1; i + 1 < samples.length; i += 1) {
    const [before, here, after] = [samples[i - 1], samples[i], samples[i + 1]];
    if (!before || !here || !after) continue;
    const share = (here.elapsedS - before.elapsedS) / (after.elapsedS - before.elapsedS);
    const between = before.pressurePa + share * (after.pressurePa - before.pressurePa);
    // Variance of here − between: 1 + share² + (1 − share)².
    const sizePa = Math.abs(here.pressurePa - between) / Math.hypot(1, share, 1 - share);
    differences.push({ pressurePa: here.pressurePa, sizePa });
  }
  differences.sort((a, b) => a.pressurePa - b.pressurePa);
  const middle = differences.length >> 1;
  const lower = halfOf(differences.slice(0, middle));
  const upper = halfOf(differences.slice(middle));
  const spread = upper.pressurePa ** 2 - lower.pressurePa ** 2;
  const relative2 =
    spread > 0.1 * upper.pressurePa ** 2
      ? Math.min(
          Math.max((upper.variance - lower.variance) / spread, 0),
          upper.variance / upper.pressurePa ** 2,
        )
      : 0;
  const constant = Math.max(upper.variance - relative2 * upper.pressurePa ** 2, 0);
  return (pressurePa) =>
    Math.max(constant, LEAST_SIGMA_PA ** 2) +
    Math.max(relative2, LEAST_RELATIVE_SIGMA ** 2) * pressurePa ** 2;
}

function halfOf(differences: readonly { pressurePa: number; sizePa: number }[]) {
  return {
    pressurePa: median(differences.map(({ pressurePa }) => pressurePa)),
    variance: (SIGMA_PER_MAD * median(differences.map(({ sizePa }) => sizePa))) ** 2,
  };
}
