/** The readings of a hold, thinned for the fit: narrow groups early, wider ones later. */
import type { Sample } from '../readings/samples.ts';
import type { Noise } from './rise-noise.ts';
import type { SeenStep } from './rise-steps.ts';

/** A point of the hold; times count from isolation. */
export interface RisePoint {
  readonly heldS: number;
  readonly pressurePa: number;
  /** From its first sample to its last, and one interval more, s. */
  readonly widthS: number;
  /** How many samples stand behind it. */
  readonly count: number;
  /** Of the display there, Pa, and how long the reading stays within one, s; 0 where none shows. */
  readonly stepPa: number;
  readonly dwellS: number;
}

/** Groups grow with the time since isolation: some 65 points in 15 min, 75 in half an hour. */
const GROWTH = 0.07;
/** And are no narrower than this, s. */
const NARROWEST_S = 1.5;
/** A group never spans a silence that is so much longer than it is wide. */
const SILENCE = 2;

/**
 * @param samples after isolation, in order of time
 * @param steps where the pressure jumped: no group spans one
 */
export function risePoints(
  samples: readonly Sample[],
  noise: Noise,
  isolatedS: number,
  steps: readonly SeenStep[],
): RisePoint[] {
  const points: RisePoint[] = [];
  let group: Sample[] = [];
  let firstS = 0;
  let lastS = 0;
  for (const sample of samples) {
    const { elapsedS } = sample;
    if (group.length > 0) {
      const widthS = Math.max(NARROWEST_S, GROWTH * (firstS - isolatedS));
      const isSilence = elapsedS - lastS > SILENCE * widthS;
      if (elapsedS - firstS >= widthS || isSilence || hasStep(steps, lastS, elapsedS)) {
        points.push(pointOf(group, noise, isolatedS));
        group = [];
      }
    }
    if (group.length === 0) firstS = elapsedS;
    lastS = elapsedS;
    group.push(sample);
  }
  if (group.length > 0) points.push(pointOf(group, noise, isolatedS));
  return points;
}

function hasStep(steps: readonly SeenStep[], fromS: number, untilS: number): boolean {
  for (const { toS } of steps) if (fromS < toS && toS <= untilS) return true;
  return false;
}

function pointOf(group: readonly Sample[], noise: Noise, isolatedS: number): RisePoint {
  let time = 0;
  let pressure = 0;
  for (const { elapsedS, pressurePa } of group) {
    time += elapsedS;
    pressure += pressurePa;
  }
  const count = group.length;
  const spanS = (group.at(-1)?.elapsedS ?? 0) - (group[0]?.elapsedS ?? 0);
  const { stepPa, dwellS } = noise.stepsAt(time / count);
  return {
    heldS: time / count - isolatedS,
    pressurePa: pressure / count,
    widthS: count > 1 ? (spanS * count) / (count - 1) : 1,
    count,
    stepPa,
    dwellS,
  };
}
