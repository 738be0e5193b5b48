/** Looks for the mixtures that matter, and for the inflows at which to weigh them. */
import type { LeakTold } from './leak-told.ts';
import type { Design } from './rise-design.ts';
import type { MixtureVisitor } from './rise-likelihood.ts';
import { mixturesOf, type Mixture } from './rise-mixtures.ts';

/** A mixture that may matter. */
interface Candidate {
  readonly mixture: Mixture;
  /** ln of how wide its part of the inflow is. */
  readonly height: number;
  /** The likeliest inflow that was tried, and ln of its likelihood times `height`. */
  readonly at: number;
  readonly peak: number;
}

export interface Found {
  readonly candidates: readonly Candidate[];
  /** The highest `peak`. */
  readonly highest: number;
  /** Inflows at which to weigh each, ascending from 0. */
  readonly nodes: readonly number[];
}

/** So many of what may be the likeliest are all looked at, of the rest one in so many stands for its like. */
const ALL_OF = 100;
const ONE_IN = 3;
/** Mixtures less likely than the best by this are left out: e^−9, with a hundred of them. */
export const LEFT_OUT = 9;
/** And of the rest so many that together make this part of all: less than a leak that forbids a pass. */
const NEGLECTED = 1e-3;
const NODES = 24;

/**
 * @param bestLeakPaPerS of the best fit of all
 * @param leakLimitPaPerS an inflow of this size is always looked at
 * @param earlier where other holds of the same system have it
 */
export function findMixtures(
  visitor: MixtureVisitor,
  design: Design,
  bestLeakPaPerS: number,
  leakLimitPaPerS: number,
  earlier: readonly LeakTold[],
): Found {
  // Nothing but a leak could not make it steeper than it has been.
  const widest = Math.max(design.amountScalePa / design.lengthS, leakLimitPaPerS);
  const common = [bestLeakPaPerS, 0, 0.3 * widest, 0.65 * widest];
  const mixtures = mixturesOf(design);
  const bounds = boundsOf(visitor, mixtures, widest);
  const { best, sigma, height, likely } = bounds;
  // A mixture's own places first: they leave least to be tried.
  const tries = Float64Array.from([0, 0, ...common]);
  const seen: Candidate[] = [];
  let highest = -Infinity;
  for (const place of likeliestFirst(mixtures, likely)) {
    if ((likely[place] ?? 0) < highest - LEFT_OUT) break;
    const mixture = mixtures[place];
    if (!mixture) break;
    visitor.take(mixture);
    const wide = height[place] ?? 0;
    let peak = -Infinity;
    let at = 0;
    tries[0] = (best[place] ?? 0) - (sigma[place] ?? 0);
    tries[1] = (best[place] ?? 0) + (sigma[place] ?? 0);
    for (let i = 0; i < tries.length; i += 1) {
      const leak = tries[i] ?? 0;
      if (leak < 0 || leak > 2 * widest || visitor.mostAt(leak) + wide <= peak) continue;
      visitor.visit(leak);
      if (visitor.logWeight + wide > peak) {
        peak = visitor.logWeight + wide;
        at = leak;
      }
    }
    highest = Math.max(highest, peak);
    seen.push({ mixture, height: wide, at, peak });
  }
  const candidates = likelyOnes(seen, highest);
  const nodes = nodesFor(visitor, candidates, highest);
  return { candidates, highest, nodes: withEarlier(nodes, earlier) };
}

/** What a mixture could be at most, were its amounts free: in the order of the mixtures. */
interface Bounds {
  /** Where that would have the inflow, and its deviation. */
  readonly best: Float64Array;
  readonly sigma: Float64Array;
  /** ln of how wide its part of the inflow is, and ln of the integral times that. */
  readonly height: Float64Array;
  readonly likely: Float64Array;
}

/** One search at a time: some hundred numbers that need not be found room for anew. */
let room: Bounds = newRoom(512);

function newRoom(count: number): Bounds {
  const column = () => new Float64Array(count);
  return { best: column(), sigma: column(), height: column(), likely: column() };
}

function boundsOf(visitor: MixtureVisitor, mixtures: readonly Mixture[], widest: number): Bounds {
  if (room.best.length < mixtures.length) room = newRoom(2 * mixtures.length);
  for (const [place, mixture] of mixtures.entries()) {
    visitor.take(mixture);
    const { at, sigma, logWeight } = visitor.free;
    // Amounts that may not be negative leave the inflow less room than free ones.
    const height = Math.log(Math.min(sigma, widest));
    room.best[place] = at;
    room.sigma[place] = sigma;
    room.height[place] = height;
    room.likely[place] = logWeight + height;
  }
  return room;
}

/**
 * Places of the mixtures to look at, the likeliest first, as far as amounts that may be negative tell. Of
 * those that follow the first ones, one in three that lie beside each other has the weight of all three.
 */
function likeliestFirst(mixtures: Mixture[], likely: Float64Array): number[] {
  // A small whole number is none that has to be kept somewhere.
  const byLikely = (a: number, b: number) => Math.sign((likely[b] ?? 0) - (likely[a] ?? 0));
  const places = mixtures.map((_, place) => place).sort(byLikely);
  const more = Math.log(ONE_IN);
  const lookedAt = places.filter((place, rank) => {
    const mixture = mixtures[place];
    // The one that has nothing level off has no like.
    if (!mixture || rank < ALL_OF || mixture.members.length === 0) return true;
    if (place % ONE_IN !== 1) return false;
    mixtures[place] = { ...mixture, logPrior: mixture.logPrior + more };
    likely[place] = (likely[place] ?? 0) + more;
    return true;
  });
  return lookedAt.sort(byLikely);
}

/** Those that matter: together all but a small part of the whole. */
function likelyOnes(candidates: readonly Candidate[], highest: number): Candidate[] {
  const sorted = [...candidates].sort((a, b) => b.peak - a.peak);
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
function nodesFor(
  visitor: MixtureVisitor,
  candidates: readonly Candidate[],
  highest: number,
): number[] {
  let weight = 0;
  let centre = 0;
  let finest = Infinity;
  for (const { at, height, peak } of candidates) {
    const share = Math.exp(peak - highest);
    weight += share;
    centre += share * at;
    if (peak > highest - 3) finest = Math.min(finest, Math.exp(height));
  }
  centre /= weight;
  let reach = centre + 3 * finest;
  for (const { mixture, at, peak, height } of candidates.slice(0, LOOKED_AT)) {
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

/** Also where another hold's likelihood changes, as far as these nodes reach. */
function withEarlier(nodes: readonly number[], earlier: readonly LeakTold[]): number[] {
  const most = nodes.at(-1) ?? 0;
  const more = earlier.flatMap(({ atPaPerS }) => {
    const within = atPaPerS.filter((leak) => leak > 0 && leak < most);
    const every = Math.ceil(within.length / MOST_BY_EARLIER);
    return within.filter((_, i) => i % every === 0);
  });
  const least = LEAST_APART * most;
  return [...nodes, ...more]
    .sort((a, b) => a - b)
    .filter((leak, i, all) => i === 0 || leak - (all[i - 1] ?? 0) > least);
}

/** So many nodes are taken over from each other hold, and nodes are so far apart, as a share of the last. */
const MOST_BY_EARLIER = 14;
const LEAST_APART = 1e-7;
