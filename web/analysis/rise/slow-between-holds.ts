/**
 * What a repeat hold tells of a rise too slow to bend: a leak is as fast in both holds, and what walls
 * or oil give off has become slower by the second, the more the sooner it is exhausted.
 *
 * The straight part of this hold is S = L + s, with L = f·S the leak; that of a hold earlier by Δ then
 * was L + s·e^(Δ/τ). A single hold tells nothing of this: there all of it counts as a leak (Occam).
 */
import type { LeakTold } from './leak-told.ts';

/** How the straight part of a hold may be made up, and how likely that makes the earlier holds. */
export interface StraightSplit {
  /** ln of the likelihood of the earlier holds, over all parts. */
  readonly logLikelihood: number;
  /** The leak's part of it, f, each with its probability. */
  readonly parts: readonly { readonly leakShare: number; readonly probability: number }[];
}

/**
 * How often a part of what is straight is none, where the earlier holds speak for it, and where they don't:
 * a source that is exhausted as slowly as these looks much like a leak in two holds. Settings of ours.
 */
const PRIOR_SLOW = 0.2;
const PRIOR_SLOW_UNSUPPORTED = 0.05;
/**
 * Leak's parts that are looked at then, all as likely. They lie close, as do the time constants: of few, one
 * pair that happens to fit the two slopes would stand for all that lie between.
 */
const SHARES = Array.from({ length: 20 }, (_, i) => i / 20);
/**
 * Time constants with which such a source is exhausted, s: half an hour to four hours by fifths, all as
 * likely. Settings of ours.
 */
const EXHAUSTED_S = Array.from({ length: 12 }, (_, i) => 1800 * 1.2 ** i);

const ALL_LEAK: StraightSplit = {
  logLikelihood: 0,
  parts: [{ leakShare: 1, probability: 1 }],
};

/**
 * For each size that the straight part of the hold that is judged may have, S.
 * @param straightsPaPerS those sizes
 * @param weights how likely each is by that hold alone
 * @param middleS the middle of that hold, data time
 */
export function splitsOf(
  straightsPaPerS: readonly number[],
  weights: readonly number[],
  earlier: readonly LeakTold[],
  middleS: number,
): StraightSplit[] {
  if (earlier.length === 0) return straightsPaPerS.map(() => ALL_LEAK);
  const logs = straightsPaPerS.map((straight) => logsOf(straight, earlier, middleS));
  const top = Math.max(...logs.flatMap(({ all, slow }) => [all, ...slow.flat()]));
  const sumOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
  const allLeak = sumOf(logs.map(({ all }, n) => (weights[n] ?? 0) * Math.exp(all - top)));
  const slowed = sumOf(
    logs.map(({ slow }, n) => {
      const likelihoods = slow.flat().map((log) => Math.exp(log - top));
      return ((weights[n] ?? 0) * sumOf(likelihoods)) / likelihoods.length;
    }),
  );
  // Straight counts as a leak rather, until an earlier hold says otherwise (Occam).
  const prior = slowed > allLeak ? PRIOR_SLOW : PRIOR_SLOW_UNSUPPORTED;
  return logs.map((log) => splitOf(log, prior));
}

/** ln of how likely the earlier holds are. */
interface Logs {
  readonly all: number;
  /** By the leak's share, and by how soon the source is exhausted. */
  readonly slow: readonly (readonly number[])[];
}

function logsOf(straight: number, earlier: readonly LeakTold[], middleS: number): Logs {
  const logOf = (leakShare: number, tauS: number) =>
    earlier.reduce((sum, told) => {
      const steeper = leakShare + (1 - leakShare) * Math.exp((middleS - told.middleS) / tauS);
      return sum + told.logLikelihoodAt(straight * steeper);
    }, 0);
  return {
    all: logOf(1, Infinity),
    slow: SHARES.map((leakShare) => EXHAUSTED_S.map((tauS) => logOf(leakShare, tauS))),
  };
}

function splitOf({ all, slow }: Logs, priorSlow: number): StraightSplit {
  const top = Math.max(all, ...slow.flat());
  const each = priorSlow / SHARES.length / EXHAUSTED_S.length;
  const weights = [
    { leakShare: 1, weight: (1 - priorSlow) * Math.exp(all - top) },
    ...SHARES.map((leakShare, i) => ({
      leakShare,
      weight: each * (slow[i] ?? []).reduce((sum, log) => sum + Math.exp(log - top), 0),
    })),
  ];
  const total = weights.reduce((sum, { weight }) => sum + weight, 0);
  return {
    logLikelihood: top + Math.log(total),
    parts: weights.map(({ leakShare, weight }) => ({ leakShare, probability: weight / total })),
  };
}
