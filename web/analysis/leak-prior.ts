/** How likely an inflow is before anything has been read. */

/** That there is none at all. A setting of ours. */
const PRIOR_NONE = 0.4;
/** Else they are as likely in every order of magnitude, from a fifth of the limit to 200 times it. */
const SMALLEST_SHARE = 0.2;
const LARGEST_SHARE = 200;

/**
 * The weight of each node: that of no inflow at all, and of the rest, ∝ 1/(L + smallest), by trapezoids.
 * @param nodes inflows, ascending from 0, Pa/s
 */
export function leakPrior(nodes: readonly number[], leakLimitPaPerS: number): number[] {
  const smallest = SMALLEST_SHARE * leakLimitPaPerS;
  const largest = LARGEST_SHARE * leakLimitPaPerS;
  const norm = Math.log((largest + smallest) / smallest);
  return nodes.map((leak, n) => {
    const before = nodes[Math.max(n - 1, 0)] ?? 0;
    const after = nodes[Math.min(n + 1, nodes.length - 1)] ?? 0;
    const slab = ((1 - PRIOR_NONE) * (after - before)) / 2 / (leak + smallest) / norm;
    return n === 0 ? PRIOR_NONE + slab : slab;
  });
}
