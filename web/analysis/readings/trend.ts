/** The robust present: pressure and how fast it changes. */
import { median, medianInPlace } from '../fitting/median.ts';
import type { Sample } from './samples.ts';

/** A reading older than this is not the present. */
const PRESENT_S = 20;
/** The rate is taken over a minute, in at most so many samples. */
const RATE_WINDOW_S = 60;
const RATE_SAMPLES = 40;

/** The median of the last three samples, Pa, or null where the sensor has been silent. */
export function presentPressurePa(samples: readonly Sample[], nowS: number): number | null {
  const latest = samples.slice(-3).filter(({ elapsedS }) => elapsedS > nowS - PRESENT_S);
  return latest.length === 0 ? null : median(latest.map(({ pressurePa }) => pressurePa));
}

/**
 * d ln P / dt over the last minute, 1/s: the median of the slopes between all pairs (Theil and Sen),
 * which a third of the samples may spoil without effect. Null with fewer than four samples.
 */
export function relativeRatePerS(samples: readonly Sample[], nowS: number): number | null {
  const latest = samples.filter(({ elapsedS }) => elapsedS > nowS - RATE_WINDOW_S);
  const step = Math.max(1, Math.ceil(latest.length / RATE_SAMPLES));
  const chosen = latest.filter((_, i) => (latest.length - 1 - i) % step === 0);
  if (chosen.length < 4) return null;
  const slopes = new Float64Array((chosen.length * (chosen.length - 1)) / 2);
  let count = 0;
  for (let i = 1; i < chosen.length; i += 1) {
    const { elapsedS: laterS = 0, pressurePa: laterPa = 1 } = chosen[i] ?? {};
    for (let j = 0; j < i; j += 1) {
      const { elapsedS = 0, pressurePa = 1 } = chosen[j] ?? {};
      const betweenS = laterS - elapsedS;
      if (betweenS <= 0) continue;
      slopes[count] = Math.log(laterPa / pressurePa) / betweenS;
      count += 1;
    }
  }
  return count === 0 ? null : medianInPlace(slopes, count);
}
