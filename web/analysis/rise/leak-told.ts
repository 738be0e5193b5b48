/** What a hold tells of the steady inflow, for the holds that repeat it. */

export interface LeakTold {
  /** ln of the likelihood of an inflow, Pa/s, but for a constant; −∞ nowhere. */
  readonly logLikelihoodAt: (leakPaPerS: number) => number;
  /** Inflows between which it changes, ascending, Pa/s. */
  readonly atPaPerS: readonly number[];
  /** How likely each of them was beforehand. */
  readonly priors: readonly number[];
  /** The middle of the hold, data time, s. */
  readonly middleS: number;
}

/**
 * The same from its values at some inflows: straight lines in between and beyond.
 * @param leaksPaPerS ascending, at least two
 */
export function leakTold(
  leaksPaPerS: readonly number[],
  likelihoods: Float64Array,
  priors: readonly number[],
  middleS: number,
): LeakTold {
  const logs = Array.from(likelihoods, (value) => Math.log(Math.max(value, 1e-300)));
  return {
    atPaPerS: leaksPaPerS,
    priors,
    middleS,
    logLikelihoodAt: (leakPaPerS) => {
      let n = 0;
      while (n + 2 < leaksPaPerS.length && (leaksPaPerS[n + 1] ?? 0) < leakPaPerS) n += 1;
      const [from, to] = [leaksPaPerS[n] ?? 0, leaksPaPerS[n + 1] ?? 1];
      const [a, b] = [logs[n] ?? 0, logs[n + 1] ?? 0];
      return a + ((b - a) * (leakPaPerS - from)) / (to - from);
    },
  };
}
