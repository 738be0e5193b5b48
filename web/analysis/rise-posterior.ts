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
/** And of the rest so many that together make this part of all. */
const NEGLECTED = 4e-3;
const NODES = 28;
/** Cells in which the end of the hold and what levels off are counted. */
const CELLS = 240;

export function risePosterior(
  design: Design,
  bestLeakPaPerS: number,
  limits: KindLimits,
  other: LogLikelihood | null,
): Posterior {
  const mixtures = mixturesOf(design);
  const visitor = new MixtureVisitor(design);
  // First look: where each mixture would have the inflow, and how likely it is there.
  const firsts: First[] = [];
  let highest = -Infinity;
  // Nothing but a leak could not make it steeper than it has been.
  const widest = Math.max(design.amountScalePa / design.lengthS, limits.leakLimitPaPerS);
  const common = [0, 0.3 * widest, 0.65 * widest, bestLeakPaPerS];
  for (const mixture of mixtures) {
    visitor.take(mixture);
    const { at: best, sigma, logWeight: bound } = visitor.free;
    // Amounts that may not be negative leave the inflow less room than free ones.
    const height = Math.log(Math.min(sigma, widest));
    if (bound + height < highest - LEFT_OUT) continue;
    let peak = -Infinity;
    let at = 0;
    for (const leak of [...common, best - sigma, best + sigma]) {
      if (leak < 0 || leak > 2 * widest) continue;
      visitor.visit(leak);
      if (visitor.logWeight + height > peak) {
        peak = visitor.logWeight + height;
        at = leak;
      }
    }
    highest = Math.max(highest, peak);
    firsts.push({ mixture, sigma, height, at, peak, bound, best });
  }
  const likely = likelyOnes(firsts, highest);
  const nodes = nodesFor(visitor, likely, highest);
  const smallest = SMALLEST_SHARE * limits.leakLimitPaPerS;
  const priors = priorsAt(nodes, smallest, limits.leakLimitPaPerS * LARGEST_SHARE);

  // Second look: every likely mixture at every node.
  const count = nodes.length;
  const logs = new Float64Array(likely.length * count);
  let top = -Infinity;
  const others = nodes.map((leak) => (other ? other(leak) : 0));
  const ends = new Float64Array(likely.length * count * 4);
  const amounts: Float64Array[] = [];
  logs.fill(-Infinity);
  for (const [m, { mixture, best, sigma, height, bound }] of likely.entries()) {
    const held = new Float64Array(count * 3);
    amounts.push(held);
    visitor.take(mixture);
    for (let n = 0; n < count; n += 1) {
      const away = ((nodes[n] ?? 0) - best) / sigma;
      if (bound + height - 0.5 * away * away < highest - LEFT_OUT) continue;
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
        coefficients[place] = (coefficients[place] ?? 0) + weight * (amounts[m]?.[3 * n + a] ?? 0);
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
  /** ln of how wide its part of the inflow is. */
  readonly height: number;
  readonly at: number;
  readonly peak: number;
  /** Where its amounts, were they free, would have the inflow, and ln of the integral there. */
  readonly best: number;
  readonly bound: number;
}

/** Those that matter: together all but a small part of the whole. */
function likelyOnes(firsts: readonly First[], highest: number): First[] {
  const sorted = [...firsts].sort((a, b) => b.peak - a.peak);
  const weights = sorted.map(({ peak }) => Math.exp(peak - highest));
  let left = weights.reduce((sum, weight) => sum + weight, 0) * NEGLECTED;
  let count = sorted.length;
  while (count > 1 && left > 0) {
    left -= weights[count - 1] ?? 0;
    if (left > 0) count -= 1;
  }
  return sorted.slice(0, count);
}

/** Looked at to find how far the nodes have to reach. */
const LOOKED_AT = 12;
/** As far as the weight has fallen by e^−7. */
const REACH = 7;

/** No inflow, then places that lie close where the likely mixtures have it and ever wider from there. */
function nodesFor(visitor: MixtureVisitor, firsts: readonly First[], highest: number): number[] {
  let weight = 0;
  let centre = 0;
  let finest = Infinity;
  for (const { at, height, peak } of firsts) {
    const share = Math.exp(peak - highest);
    weight += share;
    centre += share * at;
    if (peak > highest - 3) finest = Math.min(finest, Math.exp(height));
  }
  centre /= weight;
  let reach = centre + 3 * finest;
  for (const { mixture, at, peak, height } of firsts.slice(0, LOOKED_AT)) {
    visitor.take(mixture);
    let step = finest;
    for (let i = 0; i < 30; i += 1, step *= 1.7) {
      visitor.visit(at + step);
      if (visitor.logWeight + height < peak - REACH) break;
    }
    reach = Math.max(reach, at + step);
  }
  const low = Math.asinh(-centre / finest);
  const high = Math.asinh((reach - centre) / finest);
  const nodes = [0];
  for (let i = 0; i < NODES; i += 1) {
    const z = low + ((high - low) * i) / (NODES - 1);
    const leak = centre + finest * Math.sinh(z);
    if (leak > (nodes.at(-1) ?? 0) + 1e-3 * finest) nodes.push(leak);
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
/** Beyond the upper end lies less than beyond the lower: what levels off takes some of every leak. */
const HIGH_TAIL = 0.025;
/** What is left of the weight of no inflow at the upper end. A setting of ours. */
const NONE_AT_HIGH_END = 0.2;
/** No inflow is steadier than this share: walls take up its humidity by and by. From memory. */
const STEADY_SIGMA = 0.015;
/** So much of it may be a release too slow for any bend to show. A setting of ours. */
const SLOW_SIGMA = 0.05;

function estimateOf(nodes: readonly number[], weights: Float64Array, total: number): Estimate {
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
    low: Math.max(mean - Math.hypot(mean - low, spread * SLOW_SIGMA), 0),
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
    const part = after > before ? Math.min(Math.max((after - limit) / (after - before), 0), 1) : 0;
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
