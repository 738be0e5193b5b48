/** What the readings of a hold leave open: inflow, end of the hold and kind of rise, with probabilities. */
import type { Estimate } from './conclusions.ts';
import { estimateOfMany, type Weighted } from './estimate-cells.ts';
import { leakEstimate, priorWeights, shareAbove } from './leak-estimate.ts';
import type { Design } from './rise-design.ts';
import { KINDS, kindOf, type KindLimits } from './rise-kinds.ts';
import { MixtureVisitor } from './rise-likelihood.ts';
import { MOST_AMOUNTS, mixturesOf } from './rise-mixtures.ts';
import { isNegligible, nodesFor, risenPa, searchMixtures, steepestOf } from './rise-search.ts';
import { LEAK, shapeAt } from './rise-shapes.ts';

/** ln of the likelihood of an inflow, as a hold gives it. */
export type LogLikelihood = (leakPaPerS: number) => number;

export interface Posterior {
  readonly leakPaPerS: Estimate;
  readonly endPa: Estimate;
  /** What levels off, from the beginning to the end of the hold, Pa. */
  readonly levelledPa: Estimate;
  /** Probability of each kind, in the order of `KINDS`. */
  readonly kinds: Float64Array;
  /** Probability that the inflow is above the limit. */
  readonly aboveLimit: number;
  /** Expected coefficients of the shapes. */
  readonly coefficients: Float64Array;
  readonly logLikelihood: LogLikelihood;
}

/** The hold that the rule asks for, since isolation, s. */
export interface RuledHold extends KindLimits {
  readonly fromS: number;
  readonly toS: number;
}

/** Amounts of a fifth of the allowed rise are to be expected of every system. A setting of ours. */
const LEAST_AMOUNT_SHARE = 0.2;
/** How much a reading may wander on until the end of the hold, as a share of it. A setting of ours. */
const DRIFT_SHARE = 1e-3;
const TAIL = 0.05;

/**
 * @param bestLeakPaPerS inflow of the best fit of all
 * @param other what other holds of the same system say of its inflow
 */
export function risePosterior(
  design: Design,
  bestLeakPaPerS: number,
  ruled: RuledHold,
  other: LogLikelihood | null,
): Posterior {
  const { hold, size } = design;
  const amountScalePa = Math.max(risenPa(hold), LEAST_AMOUNT_SHARE * ruled.allowedRisePa);
  const visitor = new MixtureVisitor(design, amountScalePa);
  const search = searchMixtures(
    visitor,
    mixturesOf(hold.shapes, hold.lengthS, amountScalePa),
    bestLeakPaPerS,
    steepestOf(design, ruled.leakLimitPaPerS),
  );
  const nodes = nodesFor(visitor, search);
  const priors = priorWeights(nodes, ruled.leakLimitPaPerS);
  const others = nodes.map((leakPaPerS) => other?.(leakPaPerS) ?? 0);
  const highestOther = Math.max(...others);
  const targets = targetsOf(design, ruled);

  const alone = new Float64Array(nodes.length);
  const weights = new Float64Array(nodes.length);
  const kinds = new Float64Array(KINDS.length);
  const coefficients = new Float64Array(size);
  const ends: Weighted[] = [];
  const levels: Weighted[] = [];
  let total = 0;
  for (const likely of search.likely) {
    visitor.take(likely.mixture);
    for (const [n, leakPaPerS] of nodes.entries()) {
      if (isNegligible(visitor, likely, leakPaPerS, search.highest)) continue;
      visitor.visit(leakPaPerS);
      const likelihood = Math.exp(visitor.logWeight - search.highest);
      alone[n] = (alone[n] ?? 0) + likelihood;
      const weight =
        likelihood * (priors[n] ?? 0) * Math.exp((others[n] ?? 0) - highestOther);
      if (!(weight > 0)) continue;
      total += weight;
      weights[n] = (weights[n] ?? 0) + weight;
      coefficients[LEAK] = (coefficients[LEAK] ?? 0) + weight * leakPaPerS;
      for (const [a, member] of likely.mixture.members.entries()) {
        coefficients[member] =
          (coefficients[member] ?? 0) + weight * (visitor.amounts[a] ?? 0);
      }
      const end = valueOf(visitor, likely.mixture.members, targets.end, leakPaPerS);
      ends.push({ ...end, weight });
      const level = valueOf(visitor, likely.mixture.members, targets.level, leakPaPerS);
      levels.push({ ...level, weight });
      countKind(kinds, leakPaPerS, { ...level, weight }, ruled);
    }
  }
  return {
    leakPaPerS: leakEstimate(nodes, weights),
    endPa: estimateOfMany(ends, TAIL),
    levelledPa: estimateOfMany(levels, TAIL),
    kinds: kinds.map((weight) => weight / total),
    aboveLimit: shareAbove(nodes, weights, ruled.leakLimitPaPerS),
    coefficients: coefficients.map((sum) => sum / total),
    logLikelihood: interpolated(nodes, alone),
  };
}

/** Something that depends on the coefficients in a straight line, and has an error of its own. */
interface Target {
  readonly offset: number;
  readonly per: Float64Array;
  readonly variance: number;
}

function targetsOf(
  { hold, startPa, startPer, startVariance }: Design,
  { fromS, toS }: RuledHold,
): { readonly end: Target; readonly level: Target } {
  const { shapes, lengthS, points } = hold;
  const atEnd = shapes.map((shape) => shapeAt(shape, toS, lengthS));
  const atStart = shapes.map((shape) => shapeAt(shape, fromS, lengthS));
  const ahead = Math.max(toS - lengthS, 0) / toS;
  const wanderPa = DRIFT_SHARE * ahead * (points.at(-1)?.pressurePa ?? 0);
  return {
    end: {
      offset: startPa,
      per: startPer.map((per, i) => per + (atEnd[i] ?? 0)),
      variance: startVariance + wanderPa ** 2,
    },
    level: {
      offset: 0,
      per: Float64Array.from(shapes, (_, i) =>
        i === LEAK ? 0 : (atEnd[i] ?? 0) - (atStart[i] ?? 0),
      ),
      variance: 0,
    },
  };
}

function valueOf(
  { amounts, covariance }: MixtureVisitor,
  members: readonly number[],
  { offset, per, variance }: Target,
  leakPaPerS: number,
): { mean: number; sigma: number } {
  let mean = offset + (per[LEAK] ?? 0) * leakPaPerS;
  let sum = variance;
  for (let a = 0; a < members.length; a += 1) {
    const perA = per[members[a] ?? 0] ?? 0;
    mean += perA * (amounts[a] ?? 0);
    for (let b = 0; b < members.length; b += 1) {
      sum += perA * (per[members[b] ?? 0] ?? 0) * (covariance[a * MOST_AMOUNTS + b] ?? 0);
    }
  }
  return { mean, sigma: Math.sqrt(Math.max(sum, 0)) };
}

/** Gauss and Hermite with three nodes, 0 and ±√3 deviations: exact to the fifth power. */
function countKind(
  kinds: Float64Array,
  leakPaPerS: number,
  { mean, sigma, weight }: Weighted,
  limits: KindLimits,
): void {
  for (const [away, share] of [
    [0, 2 / 3],
    [-Math.sqrt(3), 1 / 6],
    [Math.sqrt(3), 1 / 6],
  ] as const) {
    const kind = kindOf(leakPaPerS, mean + away * sigma, limits);
    kinds[kind] = (kinds[kind] ?? 0) + weight * share;
  }
}

function interpolated(nodes: readonly number[], values: Float64Array): LogLikelihood {
  const logs = Array.from(values, (value) => Math.log(Math.max(value, Number.MIN_VALUE)));
  return (leakPaPerS) => {
    let n = 0;
    while (n + 2 < nodes.length && (nodes[n + 1] ?? 0) < leakPaPerS) n += 1;
    const [from, to] = [nodes[n] ?? 0, nodes[n + 1] ?? 1];
    const [before, after] = [logs[n] ?? 0, logs[n + 1] ?? 0];
    return before + ((after - before) * (leakPaPerS - from)) / (to - from);
  };
}
