/** In-range pressures freed of spikes: what the fits and the stage recognition look at. */
import { median, medianOfFive } from '../fitting/median.ts';
import type { TimeBin } from './bin-level.ts';

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
/** Samples that there is room for at first. */
const LEAST_ROOM = 64;
/** Median absolute deviation to standard deviation of a normal distribution: 1/Φ⁻¹(3/4). */
export const SIGMA_PER_MAD = 1.4826;

/** The in-range bins as they come, and which of them are spikes. */
export class SampleRun {
  readonly #all: Sample[] = [];
  #logs = new Float64Array(LEAST_ROOM);
  /** Of each from the median of the five around it. */
  #deviations = new Float64Array(LEAST_ROOM);

  get length(): number {
    return this.#all.length;
  }

  /** Keeps the first `count` samples, and lets others follow. */
  replaceFrom(count: number, bins: readonly TimeBin[]): void {
    this.#makeRoomFor(count + bins.length);
    this.#all.length = count;
    for (const { elapsedS, pressurePa, count: readings } of bins) {
      if (pressurePa === null) continue;
      const sample = { elapsedS, pressurePa: Math.max(pressurePa, FAINTEST_PA), count: readings };
      this.#logs[this.#all.length] = Math.log(sample.pressurePa);
      this.#all.push(sample);
    }
    const logs = this.#logs;
    const at = (i: number) => logs[i] ?? 0;
    for (let i = Math.max(count - 2, 0); i < this.#all.length; i += 1) {
      const isInside = i >= 2 && i + 2 < this.#all.length;
      this.#deviations[i] = isInside
        ? Math.abs(at(i) - medianOfFive(at(i - 2), at(i - 1), at(i), at(i + 1), at(i + 2)))
        : 0;
    }
  }

  /**
   * Without those that stick out from both their neighbours (Hampel's rule: compare each with the median
   * of the five around it, in log pressure). The two at either end have no neighbours to be judged by
   * and stay.
   */
  withoutSpikes(): Sample[] {
    const deviations = this.#deviations.subarray(0, this.#all.length);
    const limit = Math.max(SPIKE_SIGMAS * SIGMA_PER_MAD * median(deviations), SPIKE_SHARE);
    let i = 0;
    while (i < deviations.length && (deviations[i] ?? 0) <= limit) i += 1;
    if (i === deviations.length) return this.#all.slice();
    return this.#all.filter((_, at) => (deviations[at] ?? 0) <= limit);
  }

  #makeRoomFor(count: number): void {
    if (count <= this.#logs.length) return;
    const room = 2 ** Math.ceil(Math.log2(count));
    const [logs, deviations] = [new Float64Array(room), new Float64Array(room)];
    logs.set(this.#logs);
    deviations.set(this.#deviations);
    this.#logs = logs;
    this.#deviations = deviations;
  }
}

/** The in-range bins without spikes. */
export function samplesFromBins(bins: readonly TimeBin[]): Sample[] {
  const run = new SampleRun();
  run.replaceFrom(0, bins);
  return run.withoutSpikes();
}
