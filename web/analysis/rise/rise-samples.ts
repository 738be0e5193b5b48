/** The samples of a hold without spikes, those at its ends included. */
import { median } from '../fitting/median.ts';
import { SIGMA_PER_MAD, type Sample } from '../readings/samples.ts';

/** An end is held against so many samples beside it. */
const BESIDE = 5;
/** It may lie outside of what they span by 1.5 times that span, and so many deviations of the noise. */
const SPANS = 1.5;
const SIGMAS = 6;

/** @param samples of the hold, in order of time: spikes at its ends are taken out of the list */
export function riseSamples(samples: Sample[]): readonly Sample[] {
  const steps = new Float64Array(samples.length);
  for (let i = 1; i + 1 < samples.length; i += 1) {
    const besidePa = (samples[i - 1]?.pressurePa ?? 0) + (samples[i + 1]?.pressurePa ?? 0);
    steps[i] = Math.abs((samples[i]?.pressurePa ?? 0) - besidePa / 2);
  }
  // Variance of a reading less the mean of its neighbours: 1 + 1/4 + 1/4.
  const sigmaPa = (SIGMA_PER_MAD * median(steps)) / Math.sqrt(1.5);
  while (samples.length > BESIDE + 1 && isSpike(samples.slice(0, BESIDE + 1), sigmaPa)) {
    samples.shift();
  }
  // The second may be one too, where the first is none.
  if (samples.length > BESIDE + 2 && isSpike(samples.slice(1, BESIDE + 2), sigmaPa)) {
    samples.splice(1, 1);
  }
  while (samples.length > BESIDE + 1 && isSpike(samples.slice(-BESIDE - 1).reverse(), sigmaPa)) {
    samples.pop();
  }
  if (samples.length > BESIDE + 2 && isSpike(samples.slice(-BESIDE - 2, -1).reverse(), sigmaPa)) {
    samples.splice(-2, 1);
  }
  return samples;
}

/** Whether the first stands out from the others. */
function isSpike([first, ...others]: readonly Sample[], sigmaPa: number): boolean {
  if (!first) return false;
  const pressures = others.map(({ pressurePa }) => pressurePa).sort((a, b) => a - b);
  // Without the outermost, which may be a spike itself.
  const low = pressures[1] ?? 0;
  const high = pressures.at(-2) ?? low;
  const room = SPANS * (high - low) + SIGMAS * sigmaPa;
  return first.pressurePa > high + room || first.pressurePa < low - room;
}
