/** Readings side by side: for whoever goes over all of them more than once. */
import type { Sample } from './samples.ts';

export interface Series {
  readonly elapsedS: Float64Array;
  readonly pressurePa: Float64Array;
}

export function seriesOf(samples: readonly Sample[]): Series {
  const elapsedS = new Float64Array(samples.length);
  const pressurePa = new Float64Array(samples.length);
  for (const [i, sample] of samples.entries()) {
    elapsedS[i] = sample.elapsedS;
    pressurePa[i] = sample.pressurePa;
  }
  return { elapsedS, pressurePa };
}
