/** Readings side by side: for whoever goes over all of them more than once. */
import type { Sample } from './samples.ts';

export interface Series {
  readonly elapsedS: Float64Array;
  readonly pressurePa: Float64Array;
}

export function seriesOf(samples: readonly Sample[]): Series {
  const elapsedS = new Float64Array(samples.length);
  const pressurePa = new Float64Array(samples.length);
  for (let i = 0; i < samples.length; i += 1) {
    elapsedS[i] = samples[i]?.elapsedS ?? 0;
    pressurePa[i] = samples[i]?.pressurePa ?? 0;
  }
  return { elapsedS, pressurePa };
}
