/** Quantiles of many weighted normal distributions. */
import type { Estimate } from './conclusions.ts';

/** Equal cells in which they are counted. */
const CELLS = 240;
/** Nodes and weights of Gauss and Hermite, in deviations: exact to the ninth power. */
const NODES = [-2.856970013872806, -1.355626179974266, 0, 1.355626179974266, 2.856970013872806];
const WEIGHTS = [0.011257411327721, 0.222075922005613, 0.533333333333333, 0.222075922005613, 0.011257411327721];
/** Distributions whose weight is below this part of all don't widen the cells. */
const LEAST_SHARE = 1e-6;

export interface Weighted {
  readonly mean: number;
  readonly sigma: number;
  readonly weight: number;
}

/** The median, and the interval that leaves out `tail` at either end. */
export function estimateOfMany(many: readonly Weighted[], tail: number): Estimate {
  const total = many.reduce((sum, { weight }) => sum + weight, 0);
  const outermost = NODES.at(-1) ?? 0;
  let from = Infinity;
  let to = -Infinity;
  for (const { mean, sigma, weight } of many) {
    if (weight < LEAST_SHARE * total) continue;
    from = Math.min(from, mean - outermost * sigma);
    to = Math.max(to, mean + outermost * sigma);
  }
  if (!(to > from)) return { estimate: from, low: from, high: from };
  const width = (to - from) / CELLS;
  const cells = new Float64Array(CELLS);
  for (const { mean, sigma, weight } of many) {
    if (weight < LEAST_SHARE * total) continue;
    for (let k = 0; k < NODES.length; k += 1) {
      const place = Math.floor((mean + (NODES[k] ?? 0) * sigma - from) / width);
      const cell = Math.min(Math.max(place, 0), CELLS - 1);
      cells[cell] = (cells[cell] ?? 0) + weight * (WEIGHTS[k] ?? 0);
    }
  }
  const quantile = (share: number) => {
    let sum = 0;
    for (let cell = 0; cell < CELLS; cell += 1) {
      const weight = (cells[cell] ?? 0) / total;
      if (sum + weight >= share) return from + (cell + (share - sum) / weight) * width;
      sum += weight;
    }
    return to;
  };
  return { estimate: quantile(0.5), low: quantile(tail), high: quantile(1 - tail) };
}
