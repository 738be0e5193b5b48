/** An inflow and its 90 % interval from weights at some inflows. */
import type { Estimate } from '../conclusions.ts';

const TAIL = 0.05;
/** Beyond the upper end lies less than beyond the lower: what levels off takes some of every leak. */
const HIGH_TAIL = 0.035;
/** What is left of the weight of no inflow at the upper end. A setting of ours. */
const NONE_AT_HIGH_END = 0.2;
/** No inflow is steadier than this share: walls take up its humidity by and by. From memory. */
const STEADY_SIGMA = 0.05;
/**
 * So much of it may be a release too slow for any bend to show: with it the lower end lies above the leak in about
 * one in twenty rises of two worlds that share no model (`npm run accuracy`, training seeds).
 */
const SLOW_SIGMA = 0.09;
/** No system is what the model says: both halves are so much wider than it has them, by the same rises. */
const MISFIT = 1.03;
/** And so much where several holds tell it: what the model has wrong is wrong in all of them, and no average of it. */
const MISFIT_OF_SEVERAL = 1.2;

/** Gathers inflows and their weights in any order. */
export class LeakWeights {
  readonly #placeOf = new Map<number, number>([[0, 0]]);
  readonly #weights: number[] = [0];

  /** Where the weight of an inflow is gathered: asked for once where it is added to often. */
  placeOf(leakPaPerS: number): number {
    const known = this.#placeOf.get(leakPaPerS);
    if (known !== undefined) return known;
    const place = this.#weights.push(0) - 1;
    this.#placeOf.set(leakPaPerS, place);
    return place;
  }

  add(place: number, weight: number): void {
    this.#weights[place] = (this.#weights[place] ?? 0) + weight;
  }

  /** @param holds how many of them told it */
  told(holds: number): LeakFound {
    const sorted = [...this.#placeOf].sort(([a], [b]) => a - b);
    const leaks = sorted.map(([leak]) => leak);
    const weights = Float64Array.from(sorted, ([, place]) => this.#weights[place] ?? 0);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    return {
      leakPaPerS: leakEstimate(leaks, weights, total, holds > 1 ? MISFIT_OF_SEVERAL : MISFIT),
      leakAbove: (limitPaPerS) => shareAbove(leaks, weights, total, limitPaPerS),
    };
  }
}

/** What is known of an inflow. */
export interface LeakFound {
  readonly leakPaPerS: Estimate;
  /** The probability that the inflow is above a limit. */
  readonly leakAbove: (limitPaPerS: number) => number;
}

/**
 * @param leaks ascending from 0, Pa/s
 * @param weights of each; `total` is their sum
 */
function leakEstimate(
  leaks: readonly number[],
  weights: Float64Array,
  total: number,
  misfit: number,
): Estimate {
  let mean = 0;
  for (const [n, leak] of leaks.entries()) mean += ((weights[n] ?? 0) / total) * leak;
  const low = quantile(leaks, weights, total, TAIL);
  // Most of the systems that are asked about have a leak: there the end has to hold.
  const none = weights[0] ?? 0;
  const leaking = Float64Array.from(weights);
  leaking[0] = NONE_AT_HIGH_END * none;
  const rest = total - none + NONE_AT_HIGH_END * none;
  const high = quantile(leaks, leaking, rest, 1 - HIGH_TAIL);
  const spread = 1.645 * mean;
  return {
    estimate: Math.min(Math.max(mean, low), high),
    low: Math.max(mean - misfit * Math.hypot(mean - low, spread * SLOW_SIGMA), 0),
    high: mean + misfit * Math.hypot(high - mean, spread * STEADY_SIGMA),
  };
}

/** Each inflow's weight lies evenly over its cell; that of no inflow at zero alone. */
function quantile(
  leaks: readonly number[],
  weights: Float64Array,
  total: number,
  share: number,
): number {
  let sum = 0;
  for (const [n, leak] of leaks.entries()) {
    const weight = (weights[n] ?? 0) / total;
    if (sum + weight >= share) {
      if (n === 0) return 0;
      const before = ((leaks[n - 1] ?? 0) + leak) / 2;
      const after = ((leaks[n + 1] ?? leak) + leak) / 2;
      return before + ((after - before) * (share - sum)) / Math.max(weight, 1e-300);
    }
    sum += weight;
  }
  return leaks.at(-1) ?? 0;
}

/** The share of all weight that lies above a limit. */
function shareAbove(
  leaks: readonly number[],
  weights: Float64Array,
  total: number,
  limit: number,
): number {
  let sum = 0;
  for (const [n, leak] of leaks.entries()) {
    const before = n === 0 ? 0 : ((leaks[n - 1] ?? 0) + leak) / 2;
    const after = n === 0 ? 0 : ((leaks[n + 1] ?? leak) + leak) / 2;
    const part = after > before ? Math.min(Math.max((after - limit) / (after - before), 0), 1) : 0;
    sum += ((weights[n] ?? 0) / total) * (leak > limit && after <= before ? 1 : part);
  }
  return sum;
}
