/** What the readings of a hold leave open: inflow, end of the hold and kind of rise, with probabilities. */
import type { Estimate } from '../conclusions.ts';
import { END_QUANTILES } from './end-of-hold.ts';
import { EstimateCells } from './estimate-cells.ts';
import { LeakWeights, type LeakFound } from './leak-estimate.ts';
import { leakPrior } from './leak-prior.ts';
import { leakTold, type LeakTold } from './leak-told.ts';
import type { Design } from './rise-design.ts';
import { KINDS, kindOf, type KindLimits } from './rise-kinds.ts';
import { MixtureVisitor } from './rise-likelihood.ts';
import { MOST_AMOUNTS } from './rise-mixtures.ts';
import { findMixtures, LEFT_OUT, type Found } from './rise-search.ts';
import { splitsOf, type StraightSplit } from './slow-between-holds.ts';

export interface Posterior extends LeakFound {
  /** The same of all that is straight, where part of that may be a slow release. */
  readonly straight: LeakFound;
  readonly endPa: Estimate;
  readonly levelledPa: Estimate;
  /** Probability of each kind, in the order of `KINDS`. */
  readonly kinds: Float64Array;
  /** Expected coefficients of the shapes. */
  readonly coefficients: Float64Array;
  readonly startPa: number;
  /** What these readings alone tell of the inflow. */
  readonly told: LeakTold;
  /** How many of the earlier holds can have had the same inflow, and were reckoned with. */
  readonly agreeing: number;
}

/** The hold among the others of its system. */
export interface AmongHolds {
  /** Its middle, data time, s. */
  readonly middleS: number;
  readonly earlier: readonly LeakTold[];
}

/** What has less than this part of all weight is not looked at. */
const NEGLIGIBLE = 1e-6;
/** An earlier hold that makes this one so much less likely had another inflow: joints were tightened. */
const DISAGREES = 0.05;
/** No weight has been added yet: only what has any counts among the inflows. */
const NOWHERE = -1;
/** End of the hold and what has levelled off by then, each with its deviation. */
const MOMENTS = 4;

/** @returns null where no inflow that is looked at is likely at all: with limits far from anything that was read */
export function risePosterior(
  design: Design,
  bestLeakPaPerS: number,
  limits: KindLimits,
  { middleS, earlier }: AmongHolds,
): Posterior | null {
  const visitor = new MixtureVisitor(design);
  const { leakLimitPaPerS } = limits;
  const found = findMixtures(visitor, design, bestLeakPaPerS, leakLimitPaPerS, earlier);
  const { candidates, nodes } = found;
  const steepestPaPerS = design.amountScalePa / design.lengthS;
  const prior = leakPrior(nodes, leakLimitPaPerS, steepestPaPerS);
  const looks = lookAtAll(visitor, found);
  const own = ownLikelihood(looks, found);
  const alone = nodes.map((_, n) => (prior[n] ?? 0) * (own[n] ?? 0));
  const agreeing = earlier.filter((told) => agrees(nodes, alone, told, middleS));
  const splits = splitsOf(nodes, alone, agreeing, middleS);
  const { shares, total } = weighed(looks, prior, splits, nodes);
  if (!(total > 0)) return null;

  const count = nodes.length;
  const leaks = new LeakWeights();
  const straights = new LeakWeights();
  const kinds = new Float64Array(KINDS.length);
  const coefficients = new Float64Array(design.size);
  const endCells = new EstimateCells(looks.moments, 0, shares, NEGLIGIBLE * total);
  const isSplit = splits.some(({ parts }) => parts.length > 1);
  const steepest = nodes.findLast((_, n) => weightAt(shares, n, count) > NEGLIGIBLE * total) ?? 0;
  const mostSlowPa = isSplit ? steepest * limits.holdS : 0;
  const levelledCells = new EstimateCells(looks.moments, 2, shares, NEGLIGIBLE * total, mostSlowPa);
  const gathered = splits.map(({ parts }, n) =>
    parts.map(({ leakShare, probability }) => {
      const leak = leakShare * (nodes[n] ?? 0);
      return { leak, probability, place: NOWHERE };
    }),
  );
  const straightPlaces = nodes.map(() => NOWHERE);
  for (let m = 0; m < candidates.length; m += 1) {
    const members = candidates[m]?.mixture.members ?? [];
    for (let n = 0; n < count; n += 1) {
      const at = m * count + n;
      const weight = shares[at] ?? 0;
      if (weight < NEGLIGIBLE * total) continue;
      const straight = nodes[n] ?? 0;
      addTo(coefficients, 0, weight * straight);
      for (let a = 0; a < members.length; a += 1) {
        addTo(coefficients, members[a] ?? 0, weight * (looks.amounts[MOST_AMOUNTS * at + a] ?? 0));
      }
      endCells.add(looks.moments[MOMENTS * at] ?? 0, looks.moments[MOMENTS * at + 1] ?? 0, weight);
      const spread = looks.moments[MOMENTS * at + 3] ?? 0;
      if (straightPlaces[n] === NOWHERE) straightPlaces[n] = straights.placeOf(straight);
      straights.add(straightPlaces[n] ?? 0, weight);
      for (const one of gathered[n] ?? []) {
        const { leak } = one;
        const part = weight * one.probability;
        if (part < NEGLIGIBLE * total) continue;
        if (one.place === NOWHERE) one.place = leaks.placeOf(leak);
        const levelled = (looks.moments[MOMENTS * at + 2] ?? 0) + (straight - leak) * limits.holdS;
        leaks.add(one.place, part);
        levelledCells.add(levelled, spread, part);
        // Gauss–Hermite with three nodes: exact to the fifth power.
        const away = Math.sqrt(3) * spread;
        addTo(kinds, kindOf(leak, levelled, limits), (part * 2) / 3);
        addTo(kinds, kindOf(leak, levelled - away, limits), part / 6);
        addTo(kinds, kindOf(leak, levelled + away, limits), part / 6);
      }
    }
  }
  const expected = coefficients.map((value) => value / total);
  return {
    ...leaks.told(1 + agreeing.length),
    straight: straights.told(1),
    endPa: endCells.estimate(END_QUANTILES),
    levelledPa: levelledCells.estimate(),
    kinds: kinds.map((value) => value / total),
    coefficients: expected,
    startPa: expected.reduce(
      (sum, value, i) => sum + (design.startPer[i] ?? 0) * value,
      design.startOffsetPa,
    ),
    told: leakTold(nodes, own, prior, middleS),
    agreeing: agreeing.length,
  };
}

const NONE = new Float64Array(0);

/** Every likely mixture at every node: places are mixture · nodes + node. */
interface Looks {
  /** ln of the likelihood; −∞ where it is not worth a look. */
  readonly logs: Float64Array;
  readonly moments: Float64Array;
  readonly amounts: Float64Array;
}

/** One posterior at a time is worked out: some hundred kilobytes that need not be found anew each time. */
let room: Looks = { logs: NONE, moments: NONE, amounts: NONE };

/** Nothing is likely in it; moments and amounts are anything until they are set. */
function roomFor(places: number): Looks {
  if (room.logs.length < places) {
    room = {
      logs: new Float64Array(2 * places),
      moments: new Float64Array(2 * places * MOMENTS),
      amounts: new Float64Array(2 * places * MOST_AMOUNTS),
    };
  }
  return {
    logs: room.logs.subarray(0, places).fill(-Infinity),
    moments: room.moments.subarray(0, places * MOMENTS),
    amounts: room.amounts.subarray(0, places * MOST_AMOUNTS),
  };
}

function lookAtAll(visitor: MixtureVisitor, found: Found): Looks {
  const { candidates, nodes } = found;
  const looks = roomFor(candidates.length * nodes.length);
  for (const [m, { mixture, at: likeliest }] of candidates.entries()) {
    visitor.take(mixture);
    // The likelihood falls ever faster from its one peak outward: an integral over some variables of a
    // log-concave function is log-concave (Prekopa, On logarithmic concave measures and functions, 1973).
    const next = nodes.findIndex((leak) => leak >= likeliest);
    const start = next === -1 ? nodes.length : next;
    for (let n = start; n < nodes.length; n += 1) {
      if (!lookAt(visitor, found, m, n, looks) && n > start) break;
    }
    for (let n = start - 1; n >= 0; n -= 1) {
      if (!lookAt(visitor, found, m, n, looks) && n < start - 1) break;
    }
  }
  return looks;
}

/** At the mixture that the visitor has taken, and a node; false where it is too unlikely to count. */
function lookAt(
  visitor: MixtureVisitor,
  { candidates, nodes, highest }: Found,
  m: number,
  n: number,
  { logs, moments, amounts }: Looks,
): boolean {
  const least = highest - LEFT_OUT - (candidates[m]?.height ?? 0);
  const leak = nodes[n] ?? 0;
  if (visitor.mostAt(leak) < least) return false;
  visitor.visit(leak);
  if (visitor.logWeight < least) return false;
  const at = m * nodes.length + n;
  logs[at] = visitor.logWeight;
  visitor.lookAhead(moments, MOMENTS * at);
  amounts.set(visitor.amounts, MOST_AMOUNTS * at);
  return true;
}

/** Of the inflow at each node, whatever else has risen; up to a factor. */
function ownLikelihood({ logs }: Looks, { nodes }: Found): Float64Array {
  const own = new Float64Array(nodes.length);
  const top = highestOf(logs);
  for (let at = 0; at < logs.length; at += 1) {
    addTo(own, at % nodes.length, Math.exp((logs[at] ?? 0) - top));
  }
  return own;
}

function highestOf(values: Float64Array): number {
  let highest = -Infinity;
  for (let i = 0; i < values.length; i += 1) highest = Math.max(highest, values[i] ?? 0);
  return highest;
}

/**
 * Whether both holds together are about as likely as with inflows of their own (Bayes factor).
 * @param weights of the nodes, by this hold alone
 */
function agrees(
  nodes: readonly number[],
  weights: readonly number[],
  told: LeakTold,
  middleS: number,
): boolean {
  const { logLikelihoodAt, atPaPerS, priors } = told;
  const top = Math.max(...atPaPerS.map(logLikelihoodAt));
  const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);
  const splits = splitsOf(nodes, weights, [told], middleS);
  const together = sum(
    splits.map(({ logLikelihood }, n) => (weights[n] ?? 0) * Math.exp(logLikelihood - top)),
  );
  const theirsAlone = sum(
    atPaPerS.map((leak, n) => (priors[n] ?? 0) * Math.exp(logLikelihoodAt(leak) - top)),
  );
  return together > DISAGREES * sum(weights) * theirsAlone;
}

/** The weight of each place, and their sum. */
function weighed(
  { logs }: Looks,
  prior: readonly number[],
  splits: readonly StraightSplit[],
  nodes: readonly number[],
): { shares: Float64Array; total: number } {
  const shares = new Float64Array(logs.length);
  for (let at = 0; at < logs.length; at += 1) {
    shares[at] = (logs[at] ?? 0) + (splits[at % nodes.length]?.logLikelihood ?? 0);
  }
  const top = highestOf(shares);
  let total = 0;
  for (let at = 0; at < logs.length; at += 1) {
    const share = Math.exp((shares[at] ?? 0) - top) * (prior[at % nodes.length] ?? 0);
    shares[at] = share;
    total += share;
  }
  return { shares, total };
}

/** Of one node, over all mixtures. */
function weightAt(shares: Float64Array, node: number, count: number): number {
  let sum = 0;
  for (let at = node; at < shares.length; at += count) sum += shares[at] ?? 0;
  return sum;
}

function addTo(values: Float64Array, at: number, value: number): void {
  values[at] = (values[at] ?? 0) + value;
}
