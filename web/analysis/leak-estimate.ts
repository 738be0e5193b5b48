/** An inflow and its 90 % interval from weights at some inflows. */
import type { Estimate } from './conclusions.ts';

const TAIL = 0.05;
/** Beyond the upper end lies less than beyond the lower: what levels off takes some of every leak. */
const HIGH_TAIL = 0.025;
/** What is left of the weight of no inflow at the upper end. A setting of ours. */
const NONE_AT_HIGH_END = 0.2;
/** No inflow is steadier than this share: walls take up its humidity by and by. From memory. */
const STEADY_SIGMA = 0.05;
/** So much of it may be a release too slow for any bend to show … Settings of ours. */
const SLOW_SIGMA = 0.05;
/** … and where two holds agree on it: most such releases last from one hold to the next. */
const SLOW_SIGMA_REPEATED = 0.12;

/**
 * @param weights of each node; `total` is their sum
 * @param isRepeated whether an earlier hold was reckoned with
 */
export function leakEstimate(
  nodes: readonly number[],
  weights: Float64Array,
  total: number,
  isRepeated: boolean,
): Estimate {
  let mean = 0;
  for (const [n, leak] of nodes.entries()) mean += ((weights[n] ?? 0) / total) * leak;
  const low = quantile(nodes, weights, total, TAIL);
  // Most of the systems that are asked about have a leak: there the end has to hold.
  const none = weights[0] ?? 0;
  const leaking = Float64Array.from(weights);
  leaking[0] = NONE_AT_HIGH_END * none;
  const rest = total - none + NONE_AT_HIGH_END * none;
  const high = quantile(nodes, leaking, rest, 1 - HIGH_TAIL);
  const spread = 1.645 * mean;
  return {
    estimate: Math.min(Math.max(mean, low), high),
    low: Math.max(
      mean - Math.hypot(mean - low, spread * (isRepeated ? SLOW_SIGMA_REPEATED : SLOW_SIGMA)),
      0,
    ),
    high: mean + Math.hypot(high - mean, spread * STEADY_SIGMA),
  };
}

/** Each node's weight lies evenly over its cell; that of no inflow at zero alone. */
function quantile(
  nodes: readonly number[],
  weights: Float64Array,
  total: number,
  share: number,
): number {
  let sum = 0;
  for (const [n, leak] of nodes.entries()) {
    const weight = (weights[n] ?? 0) / total;
    if (sum + weight >= share) {
      if (n === 0) return 0;
      const before = ((nodes[n - 1] ?? 0) + leak) / 2;
      const after = ((nodes[n + 1] ?? leak) + leak) / 2;
      return before + ((after - before) * (share - sum)) / Math.max(weight, 1e-300);
    }
    sum += weight;
  }
  return nodes.at(-1) ?? 0;
}

/** The share of all weight that lies above a limit. */
export function shareAbove(
  nodes: readonly number[],
  weights: Float64Array,
  total: number,
  limit: number,
): number {
  let sum = 0;
  for (const [n, leak] of nodes.entries()) {
    const before = n === 0 ? 0 : ((nodes[n - 1] ?? 0) + leak) / 2;
    const after = n === 0 ? 0 : ((nodes[n + 1] ?? leak) + leak) / 2;
    const part = after > before ? Math.min(Math.max((after - limit) / (after - before), 0), 1) : 0;
    sum += ((weights[n] ?? 0) / total) * (leak > limit && after <= before ? 1 : part);
  }
  return sum;
}
