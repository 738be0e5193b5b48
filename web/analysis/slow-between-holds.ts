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

/** How often a part of what is straight through a whole hold is none. A setting of ours. */
const PRIOR_SLOW = 0.06;
/** Leak's parts that are looked at then, all as likely. */
const SHARES = [0, 0.25, 0.5, 0.75] as const;
/** Time constants with which such a source is exhausted, s: three quarters of an hour to three hours, all as
 * likely. Settings of ours. */
const EXHAUSTED_S = [2700, 5400, 10_800] as const;

const ALL_LEAK: StraightSplit = {
  logLikelihood: 0,
  parts: [{ leakShare: 1, probability: 1 }],
};

/**
 * @param straightPaPerS the straight part of the hold that is judged, S
 * @param middleS the middle of that hold, data time
 */
export function splitAt(
  straightPaPerS: number,
  earlier: readonly LeakTold[],
  middleS: number,
): StraightSplit {
  if (earlier.length === 0) return ALL_LEAK;
  const logOf = (leakShare: number, tauS: number) =>
    earlier.reduce((sum, told) => {
      const steeper = leakShare + (1 - leakShare) * Math.exp((middleS - told.middleS) / tauS);
      return sum + told.logLikelihoodAt(straightPaPerS * steeper);
    }, 0);
  const logs = SHARES.map((leakShare) => EXHAUSTED_S.map((tauS) => logOf(leakShare, tauS)));
  const logAll = logOf(1, Infinity);
  const top = Math.max(logAll, ...logs.flat());
  const prior = PRIOR_SLOW / SHARES.length / EXHAUSTED_S.length;
  const weights = [
    { leakShare: 1, weight: (1 - PRIOR_SLOW) * Math.exp(logAll - top) },
    ...SHARES.map((leakShare, i) => ({
      leakShare,
      weight: prior * (logs[i] ?? []).reduce((sum, log) => sum + Math.exp(log - top), 0),
    })),
  ];
  const total = weights.reduce((sum, { weight }) => sum + weight, 0);
  return {
    logLikelihood: top + Math.log(total),
    parts: weights.map(({ leakShare, weight }) => ({ leakShare, probability: weight / total })),
  };
}
