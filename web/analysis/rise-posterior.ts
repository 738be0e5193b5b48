/** What the readings of a hold leave open: inflow, end of the hold and kind of rise, with probabilities. */
import type { Estimate } from './conclusions.ts';
import type { Design } from './rise-design.ts';
import { KINDS, kindOf, type KindLimits } from './rise-kinds.ts';
import { MixtureVisitor, mixturesOf, type Mixture } from './rise-likelihood.ts';

/** ln of the likelihood of an inflow, as another hold of the same system gives it. */
export type LogLikelihood = (leakPaPerS: number) => number;

export interface Posterior {
  readonly leakPaPerS: Estimate;
  readonly endPa: Estimate;
  readonly levelledPa: Estimate;
  /** Probability of each kind, in the order of `KINDS`. */
  readonly kinds: Float64Array;
  /** Probability that the inflow is above the limit. */
  readonly aboveLimit: number;
  /** Expected coefficients of the shapes. */
  readonly coefficients: Float64Array;
  readonly startPa: number;
  readonly logLikelihood: LogLikelihood;
}

/** That there is no inflow at all. A setting of ours. */
const PRIOR_NONE = 0.5;
/** Inflows are as likely in every order of magnitude, from a fifth of the limit to 200 times it. */
const SMALLEST_SHARE = 0.2;
const LARGEST_SHARE = 200;
/** Mixtures less likely than the best by this are left out: e^−9, with hundreds of them. */
const LEFT_OUT = 9;
const NODES = 34;
/** Cells in which the end of the hold and what levels off are counted. */
const CELLS = 240;

export function risePosterior(
  design: Design,
  limits: KindLimits,
  other: LogLikelihood | null,
): Posterior {
  const mixtures = mixturesOf(design);
  const visitor = new MixtureVisitor(design);
  // First look: where each mixture would have the inflow, and how likely it is there.
  const firsts = mixtures.map((mixture) => {
    visitor.take(mixture);
    const { at: best, sigma } = visitor.freeLeak();
    let peak = -Infinity;
    let at = 0;
    for (const leak of [0, best - 1.5 * sigma, best, best + 1.5 * sigma]) {
      if (leak < 0) continue;
      visitor.visit(leak);
      const height = visitor.logWeight + Math.log(sigma);
      if (height > peak) {
        peak = height;
        at = leak;
      }
    }
    return { mixture, sigma, at, peak };
  });
  const highest = Math.max(...firsts.map(({ peak }) => peak));
  const likely = firsts.filter(({ peak }) => peak > highest - LEFT_OUT);
  const nodes = nodesFor(likely, highest);
  const smallest = SMALLEST_SHARE * limits.leakLimitPaPerS;
  const priors = priorsAt(nodes, smallest, limits.leakLimitPaPerS * LARGEST_SHARE);

  // Second look: every likely mixture at every node.
  const count = nodes.length;
  const logs = new Float64Array(likely.length * count);
  let top = -Infinity;
  const others = nodes.map((leak) => (other ? other(leak) : 0));
  const ends = new Float64Array(likely.length * count * 4);
  const amounts: Float64Array[] = [];
  for (const [m, { mixture }] of likely.entries()) {
    const held = new Float64Array(count * 3);
    visitor.take(mixture);
    for (let n = 0; n < count; n += 1) {
      visitor.visit(nodes[n] ?? 0);
      const log = visitor.logWeight;
      const at = m * count + n;
      logs[at] = log;
      top = Math.max(top, log + (others[n] ?? 0));
      ends[4 * at] = visitor.endPa;
      ends[4 * at + 1] = visitor.endSigmaPa;
      ends[4 * at + 2] = visitor.levelledPa;
      ends[4 * at + 3] = visitor.levelledSigmaPa;
      held.set(visitor.amounts, 3 * n);
    }
    amounts.push(held);
  }
  const weights = new Float64Array(count);
  const bare = new Float64Array(count);
  const kinds = new Float64Array(KINDS.length);
  const coefficients = new Float64Array(design.size);
  const shares = new Float64Array(likely.length * count);
  let total = 0;
  for (let at = 0; at < shares.length; at += 1) {
    const n = at % count;
    shares[at] = Math.exp((logs[at] ?? 0) + (others[n] ?? 0) - top) * (priors[n] ?? 0);
    total += shares[at] ?? 0;
  }
  const endCells = new Cells(ends, 0, shares, 1e-6 * total);
  const levelledCells = new Cells(ends, 2, shares, 1e-6 * total);
  for (const [m, { mixture }] of likely.entries()) {
    for (let n = 0; n < count; n += 1) {
      const at = m * count + n;
      bare[n] = (bare[n] ?? 0) + Math.exp((logs[at] ?? 0) - highest);
      const weight = shares[at] ?? 0;
      if (weight < 1e-6 * total) continue;
      weights[n] = (weights[n] ?? 0) + weight;
      const leak = nodes[n] ?? 0;
      coefficients[0] = (coefficients[0] ?? 0) + weight * leak;
      for (const [a, place] of mixture.members.entries()) {
        coefficients[place] =
          (coefficients[place] ?? 0) + weight * (amounts[m]?.[3 * n + a] ?? 0);
      }
      endCells.add(ends[4 * at] ?? 0, ends[4 * at + 1] ?? 0, weight);
      const levelled = ends[4 * at + 2] ?? 0;
      const spread = ends[4 * at + 3] ?? 0;
      levelledCells.add(levelled, spread, weight);
      // Gauss–Hermite with three nodes: exact to the fifth power.
      const middle = kindOf(leak, levelled, limits);
      const low = kindOf(leak, levelled - Math.sqrt(3) * spread, limits);
      const high = kindOf(leak, levelled + Math.sqrt(3) * spread, limits);
      kinds[middle] = (kinds[middle] ?? 0) + (weight * 2) / 3;
      kinds[low] = (kinds[low] ?? 0) + weight / 6;
      kinds[high] = (kinds[high] ?? 0) + weight / 6;
    }
  }
  for (let i = 0; i < kinds.length; i += 1) kinds[i] = (kinds[i] ?? 0) / total;
  for (let i = 0; i < coefficients.length; i += 1) {
    coefficients[i] = (coefficients[i] ?? 0) / total;
  }
  let startPa = design.startOffsetPa;
  for (let i = 0; i < design.size; i += 1) {
    startPa += (design.startPer[i] ?? 0) * (coefficients[i] ?? 0);
  }
  const leakPaPerS = estimateOf(nodes, weights, total);
  return {
    leakPaPerS,
    endPa: endCells.estimate(),
    levelledPa: levelledCells.estimate(),
    kinds,
    aboveLimit: shareAbove(nodes, weights, total, limits.leakLimitPaPerS),
    coefficients,
    startPa,
    logLikelihood: interpolated(nodes, bare),
  };
}

interface First {
  readonly mixture: Mixture;
  readonly sigma: number;
  readonly at: number;
  readonly peak: number;
}

/** No inflow, then places that lie close where the likely mixtures have it and ever wider from there. */
function nodesFor(firsts: readonly First[], highest: number): number[] {
  let weight = 0;
  let centre = 0;
  let finest = Infinity;
  let reach = 0;
  for (const { at, sigma, peak } of firsts) {
    const share = Math.exp(peak - highest);
    weight += share;
    centre += share * at;
    if (peak > highest - 3) finest = Math.min(finest, sigma);
    if (peak > highest - 6) reach = Math.max(reach, at + 3.5 * sigma);
  }
  centre /= weight;
  const low = Math.asinh(-centre / finest);
  const high = Math.asinh(Math.max(reach - centre, 4 * finest) / finest);
  const nodes = [0];
  for (let i = 0; i < NODES; i += 1) {
    const z = low + ((high - low) * i) / (NODES - 1);
    const leak = centre + finest * Math.sinh(z);
    if (leak > (nodes.at(-1) ?? 0)) nodes.push(leak);
  }
  return nodes;
}

/** The weight of each node: that of no inflow, and of the slab ∝ 1/(L + smallest) by trapezoids. */
function priorsAt(nodes: readonly number[], smallest: number, largest: number): number[] {
  const norm = Math.log((largest + smallest) / smallest);
  return nodes.map((leak, n) => {
    const before = nodes[Math.max(n - 1, 0)] ?? 0;
    const after = nodes[Math.min(n + 1, nodes.length - 1)] ?? 0;
    const slab = ((1 - PRIOR_NONE) * (after - before)) / 2 / (leak + smallest) / norm;
    return n === 0 ? PRIOR_NONE + slab : slab;
  });
}

const TAIL = 0.05;
/** No inflow is steadier than this: walls take up its humidity by and by. From memory. */
const RELATIVE_SIGMA = 0.015;

function estimateOf(nodes: readonly number[], weights: Float64Array, total: number): Estimate {
  let mean = 0;
  for (const [n, leak] of nodes.entries()) mean += ((weights[n] ?? 0) / total) * leak;
  const low = quantile(nodes, weights, total, TAIL);
  const high = quantile(nodes, weights, total, 1 - TAIL);
  const spread = RELATIVE_SIGMA * 1.645 * mean;
  return {
    estimate: Math.min(Math.max(mean, low), high),
    low: Math.max(mean - Math.hypot(mean - low, spread), 0),
    high: mean + Math.hypot(high - mean, spread),
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

function shareAbove(
  nodes: readonly number[],
  weights: Float64Array,
  total: number,
  limit: number,
): number {
  let sum = 0;
  for (const [n, leak] of nodes.entries()) {
    const before = n === 0 ? 0 : ((nodes[n - 1] ?? 0) + leak) / 2;
    const after = n === 0 ? 0 : ((nodes[n + 1] ?? leak) + leak) / 2;
    const part =
      after > before ? Math.min(Math.max((after - limit) / (after - before), 0), 1) : 0;
    sum += ((weights[n] ?? 0) / total) * (leak > limit && after <= before ? 1 : part);
  }
  return sum;
}

function interpolated(nodes: readonly number[], values: Float64Array): LogLikelihood {
  const logs = Array.from(values, (value) => Math.log(Math.max(value, 1e-300)));
  return (leak) => {
    let n = 0;
    while (n + 2 < nodes.length && (nodes[n + 1] ?? 0) < leak) n += 1;
    const [from, to] = [nodes[n] ?? 0, nodes[n + 1] ?? 1];
    const [a, b] = [logs[n] ?? 0, logs[n + 1] ?? 0];
    return a + ((b - a) * (leak - from)) / (to - from);
  };
}

/** Counts normal distributions into equal cells, each as its three Gauss–Hermite nodes. */
class Cells {
  readonly #cells = new Float64Array(CELLS);
  readonly #from: number;
  readonly #width: number;
  #total = 0;
  #sum = 0;

  /** @param moments mean and deviation of each, every fourth pair from `offset` on; those with a share below `least` are left out */
  constructor(moments: Float64Array, offset: number, shares: Float64Array, least: number) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = offset; i < moments.length; i += 4) {
      if ((shares[i >> 2] ?? 0) < least) continue;
      const reach = 2 * (moments[i + 1] ?? 0);
      low = Math.min(low, (moments[i] ?? 0) - reach);
      high = Math.max(high, (moments[i] ?? 0) + reach);
    }
    this.#from = low;
    this.#width = Math.max(high - low, 1e-9) / CELLS;
  }

  add(mean: number, sigma: number, weight: number): void {
    const away = Math.sqrt(3) * sigma;
    this.#put(mean, (weight * 2) / 3);
    this.#put(mean - away, weight / 6);
    this.#put(mean + away, weight / 6);
    this.#total += weight;
    this.#sum += weight * mean;
  }

  #put(value: number, weight: number): void {
    const cell = Math.min(Math.max(Math.floor((value - this.#from) / this.#width), 0), CELLS - 1);
    this.#cells[cell] = (this.#cells[cell] ?? 0) + weight;
  }

  estimate(): Estimate {
    const low = this.#quantile(TAIL);
    const high = this.#quantile(1 - TAIL);
    return { estimate: Math.min(Math.max(this.#quantile(0.5), low), high), low, high };
  }

  #quantile(share: number): number {
    let sum = 0;
    for (let cell = 0; cell < CELLS; cell += 1) {
      const weight = (this.#cells[cell] ?? 0) / this.#total;
      if (sum + weight >= share) {
        return this.#from + (cell + (share - sum) / weight) * this.#width;
      }
      sum += weight;
    }
    return this.#from + CELLS * this.#width;
  }
}
