/** How likely an inflow is before anything has been read. */

/** That there is none at all. A setting of ours, like all of these. */
const PRIOR_NONE = 0.4;
/** Else, for the most part, it is as likely in every order of magnitude, from a fifth of the limit to 200 times it … */
const SMALLEST_SHARE = 0.2;
const LARGEST_SHARE = 200;
/** … and for this part it may be any share of what has risen, from nothing to all of it. */
const PRIOR_ANY_SHARE = 0.4;

/**
 * The weight of each node, by trapezoids: that of no inflow at all; of the rest a part ∝ 1/(L + smallest)
 * and an even part.
 * @param nodes inflows, ascending from 0, Pa/s
 * @param steepestPaPerS the inflow that would make all of the rise by itself
 */
export function leakPrior(
  nodes: readonly number[],
  leakLimitPaPerS: number,
  steepestPaPerS: number,
): number[] {
  const smallest = SMALLEST_SHARE * leakLimitPaPerS;
  const largest = LARGEST_SHARE * leakLimitPaPerS;
  const norm = Math.log((largest + smallest) / smallest);
  return nodes.map((leak, n) => {
    const before = nodes[Math.max(n - 1, 0)] ?? 0;
    const after = nodes[Math.min(n + 1, nodes.length - 1)] ?? 0;
    const even = leak < steepestPaPerS ? PRIOR_ANY_SHARE / steepestPaPerS : 0;
    const density = (1 - PRIOR_ANY_SHARE) / (leak + smallest) / norm + even;
    const slab = ((1 - PRIOR_NONE) * density * (after - before)) / 2;
    return n === 0 ? PRIOR_NONE + slab : slab;
  });
}
