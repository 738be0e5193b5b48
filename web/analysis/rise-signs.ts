/** What makes a hold no ordinary rise: a step, a falling pressure, a silence. */
import type { RisePoint } from './rise-points.ts';
import { median, runningMedian } from './median.ts';
import { SIGMA_PER_MAD, type Sample } from './samples.ts';

/** A step is looked for between so many samples before and after it. */
const STEP_SAMPLES = 5;
/** It stands out from the curve's other changes over as many samples by this factor … */
const STEP_FACTOR = 12;
/** … and is at least this part of the pressure: 5 mL of air at 1 atm in 10 L are 50 Pa. */
const STEP_SHARE = 0.06;
/** The valve itself, and the quick rise after it, are no step. */
const SETTLING_S = 45;
/** So long on either side without a reading is a gap, where it is also a fifth of the hold. */
const GAP_S = 30;
const GAP_SHARE = 0.2;

/** The moment after the latest step (trapped air let go by a valve), or null. */
export function lastStepS(samples: readonly Sample[], isolatedS: number): number | null {
  const jumps: { elapsedS: number; sizePa: number; pressurePa: number; spanS: number }[] = [];
  const medians = runningMedian(
    samples.map(({ pressurePa }) => pressurePa),
    0,
    STEP_SAMPLES - 1,
  );
  for (let i = STEP_SAMPLES; i + STEP_SAMPLES <= samples.length; i += 1) {
    const beforePa = medians[i - STEP_SAMPLES] ?? 0;
    const sizePa = (medians[i] ?? 0) - beforePa;
    const elapsedS = samples[i]?.elapsedS ?? 0;
    const firstS = samples[i - STEP_SAMPLES]?.elapsedS ?? 0;
    const lastS = samples[i + STEP_SAMPLES - 1]?.elapsedS ?? 0;
    jumps.push({ elapsedS, sizePa, pressurePa: beforePa, spanS: lastS - firstS });
  }
  const usual = median(jumps.map(({ sizePa }) => sizePa));
  const usualSpanS = median(jumps.map(({ spanS }) => spanS));
  const spread = SIGMA_PER_MAD * median(jumps.map(({ sizePa }) => Math.abs(sizePa - usual)));
  const steps = jumps.filter(
    ({ elapsedS, sizePa, pressurePa, spanS }) =>
      elapsedS - isolatedS > SETTLING_S &&
      spanS < 2 * usualSpanS &&
      Math.abs(sizePa - usual) > STEP_FACTOR * Math.max(spread, Math.abs(usual)) &&
      Math.abs(sizePa - usual) > STEP_SHARE * pressurePa,
  );
  return steps.at(-1)?.elapsedS ?? null;
}

/** A slope must be this many of its standard errors below zero … */
const FALLING_SIGMAS = 5;
/** … and have cost this part of the pressure, before the hold counts as falling. */
const FALLING_SHARE = 0.02;

/** True where the pressure has fallen, beyond doubt, over the latter half of the hold. */
export function isFalling(points: readonly RisePoint[]): boolean {
  const lastS = points.at(-1)?.heldS ?? 0;
  const half = points.filter(({ heldS }) => heldS >= lastS / 2);
  if (half.length < 8) return false;
  const meanS = half.reduce((sum, { heldS }) => sum + heldS, 0) / half.length;
  const meanPa = half.reduce((sum, { pressurePa }) => sum + pressurePa, 0) / half.length;
  const spread = half.reduce((sum, { heldS }) => sum + (heldS - meanS) ** 2, 0);
  const slope =
    half.reduce((sum, p) => sum + (p.heldS - meanS) * (p.pressurePa - meanPa), 0) / spread;
  const rest = half.reduce(
    (sum, p) => sum + (p.pressurePa - meanPa - slope * (p.heldS - meanS)) ** 2,
    0,
  );
  const sigma = Math.sqrt(rest / (half.length - 2) / spread);
  return slope < -FALLING_SIGMAS * sigma && -slope * (lastS / 2) > FALLING_SHARE * meanPa;
}

/** True where a silence leaves too much of the hold unseen. */
export function hasGap(points: readonly RisePoint[], heldS: number): boolean {
  const times = [0, ...points.map((point) => point.heldS), heldS];
  const longest = times.reduce(
    (most, timeS, i) => Math.max(most, timeS - (times[i - 1] ?? timeS)),
    0,
  );
  return longest > GAP_S && longest > GAP_SHARE * heldS;
}
