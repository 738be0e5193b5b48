/** The inflow and its interval, from weights at some inflows, the first of which is none at all. */
import type { Estimate } from './conclusions.ts';

/** That there is no inflow at all. A setting of ours. */
const PRIOR_NONE = 0.5;
/** Inflows are as likely in every order of magnitude, from a fifth of the limit to 200 times it. */
const SMALLEST_SHARE = 0.2;
const LARGEST_SHARE = 200;
const TAIL = 0.05;
/** Beyond the upper end lies less than beyond the lower: what levels off takes some of every leak. */
const HIGH_TAIL = 0.025;
/** What is left of the weight of no inflow at the upper end. A setting of ours. */
const NONE_AT_HIGH_END = 0.2;
/** No inflow is steadier than this share: walls take up its humidity by and by. From memory. */
const STEADY_SIGMA = 0.015;
/** So much of it may be a release too slow for any bend to show. A setting of ours. */
const SLOW_SIGMA = 0.05;
/** 95 % point of the normal distribution. */
const SIGMAS = 1.645;

/** What is thought of each inflow beforehand: some of it none, the rest ∝ 1/(L + smallest). */
export function priorWeights(nodes: readonly number[], leakLimitPaPerS: number): number[] {
  const smallest = SMALLEST_SHARE * leakLimitPaPerS;
  const norm = Math.log((LARGEST_SHARE * leakLimitPaPerS + smallest) / smallest);
  return nodes.map((leakPaPerS, n) => {
    const before = nodes[Math.max(n - 1, 0)] ?? 0;
    const after = nodes[Math.min(n + 1, nodes.length - 1)] ?? 0;
    const slab = ((1 - PRIOR_NONE) * (after - before)) / 2 / (leakPaPerS + smallest) / norm;
    return n === 0 ? PRIOR_NONE + slab : slab;
  });
}

export function leakEstimate(nodes: readonly number[], weights: Float64Array): Estimate {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = nodes.reduce((sum, leak, n) => sum + (leak * (weights[n] ?? 0)) / total, 0);
  const low = quantile(nodes, weights, TAIL);
  // Most of the systems that are asked about have a leak: there the end has to hold.
  const leaking = Float64Array.from(weights);
  leaking[0] = NONE_AT_HIGH_END * (leaking[0] ?? 0);
  const high = quantile(nodes, leaking, 1 - HIGH_TAIL);
  const estimate = Math.min(Math.max(mean, low), high);
  const spread = SIGMAS * estimate;
  return {
    estimate,
    low: Math.max(estimate - Math.hypot(estimate - low, spread * SLOW_SIGMA), 0),
    high: estimate + Math.hypot(high - estimate, spread * STEADY_SIGMA),
  };
}

/** Each node's weight lies evenly over its cell; that of no inflow at zero alone. */
function quantile(nodes: readonly number[], weights: Float64Array, share: number): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let sum = 0;
  for (const [n, leak] of nodes.entries()) {
    const weight = (weights[n] ?? 0) / total;
    if (sum + weight >= share) {
      if (n === 0) return 0;
      const before = ((nodes[n - 1] ?? 0) + leak) / 2;
      const after = ((nodes[n + 1] ?? leak) + leak) / 2;
      return before + ((after - before) * (share - sum)) / weight;
    }
    sum += weight;
  }
  return nodes.at(-1) ?? 0;
}

/** The part of all weight above a limit. */
export function shareAbove(
  nodes: readonly number[],
  weights: Float64Array,
  limit: number,
): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return nodes.reduce((sum, leak, n) => {
    if (n === 0) return sum;
    const before = ((nodes[n - 1] ?? 0) + leak) / 2;
    const after = ((nodes[n + 1] ?? leak) + leak) / 2;
    const part = Math.min(Math.max((after - limit) / (after - before), 0), 1);
    return sum + (part * (weights[n] ?? 0)) / total;
  }, 0);
}
