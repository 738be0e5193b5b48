/** In-range pressures freed of spikes: what the fits and the stage recognition look at. */
import type { TimeBin } from './bin-level.ts';
import { median, mediansAlong } from './median.ts';

export interface Sample {
  readonly elapsedS: number;
  readonly pressurePa: number;
  /** How many readings stand behind it. */
  readonly count: number;
}

/** Logarithms need a floor: a hundredth of what sensors of the trade resolve. */
const FAINTEST_PA = 1e-3;
/** A spike stands out by this many standard deviations of the curve's own scatter … */
const SPIKE_SIGMAS = 5;
/** … and by at least this part of the reading, lest a quantised flat curve lose its steps. */
const SPIKE_SHARE = 0.02;
/** Median absolute deviation to standard deviation of a normal distribution: 1/Φ⁻¹(3/4). */
export const SIGMA_PER_MAD = 1.4826;

/**
 * The in-range bins without those that stick out from both their neighbours (Hampel's rule: compare
 * each with the median of the five around it, in log pressure). The two at either end have no
 * neighbours to be judged by and stay.
 */
export function samplesFromBins(bins: readonly TimeBin[]): Sample[] {
  const samples: Sample[] = [];
  for (const { elapsedS, pressurePa, count } of bins) {
    if (pressurePa !== null) {
      samples.push({ elapsedS, pressurePa: Math.max(pressurePa, FAINTEST_PA), count });
    }
  }
  const logs = new Float64Array(samples.length);
  for (const [i, { pressurePa }] of samples.entries()) logs[i] = Math.log(pressurePa);
  const medians = mediansAlong(logs, 2, 2);
  const deviations = new Float64Array(samples.length);
  for (let i = 2; i + 2 < samples.length; i += 1) {
    deviations[i] = Math.abs((logs[i] ?? 0) - (medians[i] ?? 0));
  }
  const limit = Math.max(SPIKE_SIGMAS * SIGMA_PER_MAD * median(deviations), SPIKE_SHARE);
  return samples.filter((_, i) => (deviations[i] ?? 0) <= limit);
}
