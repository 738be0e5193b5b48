/** How much a sensor's readings scatter about a smooth curve. */
import type { History } from './history.ts';
import { median } from './median.ts';
import { SIGMA_PER_MAD, samplesFromBins } from './samples.ts';

/** The latest so much of a stretch is looked at: there the history is kept second by second. */
const MOST_S = 1800;
/** Fewer differences than this tell nothing. A setting of ours. */
const LEAST_DIFFERENCES = 12;

/**
 * Standard deviation of what stands for a second (the mean of its readings), Pa, from how far each lies
 * off the line between its neighbours: a slope leaves nothing there. Rounding to steps counts as scatter.
 * @returns null where there are too few readings
 */
export function readingNoisePa(history: History, fromS: number, toS: number): number | null {
  const samples = samplesFromBins(history.bins(Math.max(fromS, toS - MOST_S), toS));
  const sizes = samples.flatMap((here, at) => {
    const [before, after] = [samples[at - 1], samples[at + 1]];
    if (!before || !after) return [];
    const share = (here.elapsedS - before.elapsedS) / (after.elapsedS - before.elapsedS);
    const between = before.pressurePa + share * (after.pressurePa - before.pressurePa);
    // Variance of here − between: 1 + share² + (1 − share)².
    return [Math.abs(here.pressurePa - between) / Math.hypot(1, share, 1 - share)];
  });
  return sizes.length < LEAST_DIFFERENCES ? null : SIGMA_PER_MAD * median(sizes);
}
