/** How well a law of the falling pressure, fitted earlier, foretold the latest pressures, and how far it is believed for that. */
import type { DecayData, LogPressure } from './decay-spectrum.ts';

/** ln P at a time since the first of its pressures. */
export type At = (timeS: number) => LogPressure;

/** What a record, cut short, foretold of the pressures after the cut. */
interface Trial {
  /** The mean logarithm of the density that it gave to them. */
  readonly logDensity: number;
  /** How far off they were, in terms of what is believed of its spread: the mean of the squares. */
  readonly meanSquare: number;
}

/** After each cut the prediction is looked at so far on, as parts. */
const LOOKED_AT = [0.33, 0.66, 1];
/** Fewer points than this before a cut are no trial. */
const LEAST_POINTS = 8;
/** A prediction that is farther off than so many of its standard deviations is off, and that is all. */
const MOST_SIGMAS = 4;
/**
 * Of a fit's own spread so much is believed: its normal distribution also reaches where an amplitude would
 * have to be many times the pressure.
 */
const SPREAD_SHARE = 0.55;
/**
 * The variance of what is to come, in terms of that, where the latest pressures were foretold perfectly, and what
 * each unit of the mean square adds by which they were missed: what has foretold well goes on doing so, mostly,
 * and what has missed will miss again. Set so that eight in ten hold alike, whatever was missed, on training curves
 * of two simulated worlds.
 */
const TRUSTED = 0.05;
const MISSED = 1.5;
/** A decay between two of the grid is matched by its neighbours but for so much of the fall. From exact decays. */
const OFF_GRID = 0.015;
/**
 * Another law may take over that has not shown yet: over as long again as has been seen it makes so much of the fall
 * uncertain, and less before. From training curves of formulas.
 */
const OTHER_LAW = 0.05;

/**
 * @param fitEarlier the law, fitted to the first so many pressures
 * @param cuts numbers of pressures
 * @returns null where there was nothing to try
 */
export function tryOut(
  data: DecayData,
  fitEarlier: (count: number) => At | null,
  cuts: readonly number[],
): Trial | null {
  let logDensity = 0;
  let squares = 0;
  let looks = 0;
  for (const cut of cuts) {
    if (cut < LEAST_POINTS || cut >= data.logs.length) continue;
    const earlier = fitEarlier(cut);
    if (earlier === null) continue;
    for (const part of LOOKED_AT) {
      const row = Math.min(Math.floor(cut + part * (data.logs.length - cut)), data.logs.length - 1);
      const { log, sigma } = earlier(data.timesS[row] ?? 0);
      const missed = (data.logs[row] ?? 0) - log;
      const spread = Math.hypot(sigma, data.sigma);
      logDensity -= 0.5 * squareWithin(missed / spread) + Math.log(spread);
      squares += squareWithin(missed / Math.hypot(SPREAD_SHARE * sigma, data.sigma));
      looks += 1;
    }
  }
  return looks > 0 ? { logDensity: logDensity / looks, meanSquare: squares / looks } : null;
}

function squareWithin(sigmas: number): number {
  return Math.min(sigmas * sigmas, MOST_SIGMAS ** 2);
}

/**
 * The same, with its spread as far as that is believed.
 * @param pastS the present, by the law's time
 */
export function believed(at: At, tried: Trial | null, pastS: number): At {
  const variance = tried === null ? 1 : TRUSTED + MISSED * tried.meanSquare;
  const trust = SPREAD_SHARE * Math.sqrt(variance);
  const now = at(pastS).log;
  return (timeS) => {
    const { log, sigma } = at(timeS);
    const newPart = Math.min(Math.max((timeS - pastS) / pastS, 0), 1);
    return {
      log,
      sigma: Math.hypot(trust * sigma, (OFF_GRID + OTHER_LAW * newPart) * (now - log)),
    };
  };
}
