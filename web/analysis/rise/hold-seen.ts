/** What a gauge showed at chosen moments of a hold, with the scatter of its readings. */
import type { Estimate } from '../conclusions.ts';
import { factorise, solveLeastSquares, unitVariances } from '../fitting/householder.ts';
import type { History } from '../readings/history.ts';
import { samplesFromBins, type Sample } from '../readings/samples.ts';

/** Readings as shown: noise is in the intervals (90 %), the gauge's own error is not. */
export interface HoldSeen {
  /** Length of the hold so far, s. */
  readonly heldS: number;
  /** Where it stood when it was valved off. */
  readonly startPa: Estimate | null;
  /** Where it stood so long after isolation; null where it has not come to that, or in a silence. */
  readonly pressureAt: (afterS: number) => Estimate | null;
}

/** The reading at valve-off is taken from so long before it. A setting of ours. */
const START_S = 20;
/** And others from so long on either side, longer late in a long hold. Settings of ours. */
const AROUND_S = 15;
const AROUND_SHARE = 0.02;
/** Fewer samples than this are a silence. */
const LEAST_SAMPLES = 4;
/**
 * A sensor's lag makes neighbours alike: samples a second apart count for a quarter of their number. A
 * setting of ours, for lags of up to some two seconds.
 */
const ALIKE = 4;
/** 95 % point of the normal distribution. */
const Z95 = 1.6449;

export function holdSeen(history: History, isolatedS: number, nowS: number): HoldSeen {
  const heldS = Math.max(nowS - isolatedS, 0);
  const between = (fromS: number, toS: number) =>
    samplesFromBins(history.bins(fromS, Math.min(toS, nowS)));
  return {
    heldS,
    startPa: levelAt(between(isolatedS - START_S, isolatedS), isolatedS),
    pressureAt: (afterS) => {
      if (afterS > heldS) return null;
      const atS = isolatedS + afterS;
      const aroundS = Math.max(AROUND_S, AROUND_SHARE * afterS);
      return levelAt(between(Math.max(atS - aroundS, isolatedS), atS + aroundS), atS);
    },
  };
}

/** The straight line through the samples, at one moment. */
function levelAt(samples: readonly Sample[], atS: number): Estimate | null {
  if (samples.length < LEAST_SAMPLES) return null;
  const values = Float64Array.from(samples, ({ pressurePa }) => pressurePa);
  const sinceS = Float64Array.from(samples, ({ elapsedS }) => elapsedS - atS);
  const factors = factorise([Float64Array.from(sinceS, () => 1), sinceS]);
  const [level, slope] = solveLeastSquares(factors, values);
  const variance = unitVariances(factors)?.[0];
  if (level === undefined || slope === undefined || variance === undefined) return null;
  const square = values.reduce(
    (sum, value, i) => sum + (value - level - slope * (sinceS[i] ?? 0)) ** 2,
    0,
  );
  const sigma = Math.sqrt((ALIKE * variance * square) / (values.length - 2));
  return { estimate: level, low: Math.max(level - Z95 * sigma, 0), high: level + Z95 * sigma };
}
