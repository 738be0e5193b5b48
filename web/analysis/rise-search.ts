/** Which mixtures matter for a hold, and at which inflows they have to be looked at. */
import type { Design } from './rise-design.ts';
import type { MixtureVisitor } from './rise-likelihood.ts';
import type { Mixture } from './rise-mixtures.ts';

/** A mixture that matters. */
export interface Likely {
  readonly mixture: Mixture;
  /** The likeliest of the inflows looked at, and ln of the weight there. */
  readonly at: number;
  readonly peak: number;
  /** How wide its part of the inflow is, at most. */
  readonly width: number;
}

export interface Search {
  readonly likely: readonly Likely[];
  /** ln of the largest weight. */
  readonly highest: number;
}

/** Mixtures less likely than the best by this are left out: e^−9, with hundreds of them. */
const LEFT_OUT = 9;
/** And of the rest so many that together make this part of all. */
const NEGLECTED = 4e-3;

/**
 * @param bestLeakPaPerS inflow of the best fit of all
 * @param steepestPaPerS nothing but a leak could not make it steeper than it has been
 */
export function searchMixtures(
  visitor: MixtureVisitor,
  mixtures: readonly Mixture[],
  bestLeakPaPerS: number,
  steepestPaPerS: number,
): Search {
  const common = [0, 0.3 * steepestPaPerS, 0.65 * steepestPaPerS, bestLeakPaPerS];
  const found: Likely[] = [];
  let highest = -Infinity;
  for (const mixture of mixtures) {
    visitor.take(mixture);
    const { at: best, sigma, logWeight: bound } = visitor.free;
    // Amounts that may not be negative leave the inflow less room than free ones.
    const width = Math.min(sigma, steepestPaPerS);
    const height = Math.log(width);
    if (bound + height < highest - LEFT_OUT) continue;
    let peak = -Infinity;
    let at = 0;
    const look = (leakPaPerS: number): void => {
      if (leakPaPerS < 0 || leakPaPerS > 2 * steepestPaPerS) return;
      visitor.visit(leakPaPerS);
      if (visitor.logWeight + height <= peak) return;
      peak = visitor.logWeight + height;
      at = leakPaPerS;
    };
    for (const leakPaPerS of common) look(leakPaPerS);
    look(best - sigma);
    look(best + sigma);
    highest = Math.max(highest, peak);
    found.push({ mixture, at, peak, width });
  }
  return { likely: thoseThatMatter(found, highest), highest };
}

function thoseThatMatter(found: Likely[], highest: number): Likely[] {
  found.sort((a, b) => b.peak - a.peak);
  const weights = found.map(({ peak }) => Math.exp(peak - highest));
  let left = weights.reduce((sum, weight) => sum + weight, 0) * NEGLECTED;
  let count = found.length;
  while (count > 1) {
    left -= weights[count - 1] ?? 0;
    if (left < 0) break;
    count -= 1;
  }
  return found.slice(0, count);
}

const NODES = 28;
/** So many mixtures are looked at to find how far the nodes have to reach … */
const LOOKED_AT = 12;
/** … which is as far as the weight has fallen by e^−7, in steps that grow. */
const REACH = 7;
const STRIDE = 1.7;
const MOST_STRIDES = 30;
/** Mixtures within e^−3 of the best say how close nodes must lie. */
const CLOSE = 3;

/**
 * Inflows to look at, Pa/s: none at all, then places that lie close where the likely mixtures have it
 * and ever wider from there.
 */
export function nodesFor(visitor: MixtureVisitor, { likely, highest }: Search): number[] {
  let weight = 0;
  let centre = 0;
  let finest = Infinity;
  for (const { at, width, peak } of likely) {
    const share = Math.exp(peak - highest);
    weight += share;
    centre += share * at;
    if (peak > highest - CLOSE) finest = Math.min(finest, width);
  }
  centre /= weight;
  let reach = centre + 3 * finest;
  for (const { mixture, at, peak, width } of likely.slice(0, LOOKED_AT)) {
    visitor.take(mixture);
    const height = Math.log(width);
    let stride = finest;
    for (let i = 0; i < MOST_STRIDES; i += 1, stride *= STRIDE) {
      visitor.visit(at + stride);
      if (visitor.logWeight + height < peak - REACH) break;
    }
    reach = Math.max(reach, at + stride);
  }
  const low = Math.asinh(-centre / finest);
  const high = Math.asinh((reach - centre) / finest);
  const nodes = [0];
  for (let i = 0; i < NODES; i += 1) {
    const leakPaPerS = centre + finest * Math.sinh(low + ((high - low) * i) / (NODES - 1));
    if (leakPaPerS > (nodes.at(-1) ?? 0) + 1e-3 * finest) nodes.push(leakPaPerS);
  }
  return nodes;
}

/** The weight of a mixture at an inflow may be left out without a look. */
export function isNegligible(
  visitor: MixtureVisitor,
  { width }: Likely,
  leakPaPerS: number,
  highest: number,
): boolean {
  return visitor.freeWeightAt(leakPaPerS) + Math.log(width) < highest - LEFT_OUT;
}

/** What has risen at most, Pa/s. */
export function steepestOf({ hold }: Design, leakLimitPaPerS: number): number {
  return Math.max(risenPa(hold) / hold.lengthS, leakLimitPaPerS);
}

/** The rise so far, by its first and last points, Pa. */
export function risenPa({ points }: Design['hold']): number {
  const pressures = points.map(({ pressurePa }) => pressurePa);
  return Math.max(...pressures.slice(-5)) - Math.min(...pressures.slice(0, 5));
}
