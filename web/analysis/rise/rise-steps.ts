/** Steps in a rise: air that a ball valve or a pocket had trapped, let go at once. */
import { median, mediansAlong } from '../fitting/median.ts';
import { SIGMA_PER_MAD, type Sample } from '../readings/samples.ts';
import { seriesOf, type Series } from '../readings/series.ts';

export interface SeenStep {
  /** The last moment before it and the first after it, data time, s. */
  readonly fromS: number;
  readonly toS: number;
  /** By how much the pressure jumped, Pa. */
  readonly sizePa: number;
}

/** Medians of so many samples before and after are compared: for quick sensors, and for slow ones. */
const WINDOWS = [4, 10] as const;
/** It stands out of the noise of such a difference by this factor … */
const STEP_SIGMAS = 8;
/** … is as large as the curve's own changes over as many samples before and after … */
const STEP_FACTOR = 1.5;
/** … and at least this part of the pressure: 5 mL of air at 1 atm in 10 L are 50 Pa. */
const STEP_SHARE = 0.03;
/** The valve itself, and the quick rise after it, are no step, s. */
const SETTLING_S = 25;
/** A display's own steps are smaller than this part of it. */
const STEP_QUANTA = 2.5;
/** A window that spans more than this times its usual length has a silence in it. */
const SILENCE = 2.5;

/** @returns in order of time */
export function riseSteps(samples: readonly Sample[], isolatedS: number): SeenStep[] {
  const found: (SeenStep & { readonly excess: number })[] = [];
  const series = seriesOf(samples);
  for (const width of WINDOWS) {
    for (const step of stepsOver(series, width, isolatedS)) {
      const near = found.findIndex(
        ({ fromS, toS }) => step.fromS < toS + 30 && step.toS > fromS - 30,
      );
      if (near === -1) found.push(step);
      else if (step.excess > (found[near]?.excess ?? 0)) found[near] = step;
    }
  }
  return found.sort((a, b) => a.fromS - b.fromS);
}

function stepsOver(
  { elapsedS: times, pressurePa: pressures }: Series,
  width: number,
  isolatedS: number,
) {
  const count = times.length;
  const levels = mediansAlong(pressures, 0, width - 1).fill(NaN, Math.max(count - width + 1, 0));
  const changes = new Float64Array(count).fill(NaN);
  const spans = new Float64Array(count).fill(NaN);
  for (let i = width; i < count; i += 1) {
    changes[i] = (levels[i] ?? 0) - (levels[i - width] ?? 0);
    spans[i] = (times[i] ?? 0) - (times[i - width] ?? 0);
  }
  const usualSpanS = median(spans.subarray(Math.min(width, count)));
  // A smooth curve's change lies between its neighbours': what is left is noise, or a step.
  const wiggles = new Float64Array(count).fill(NaN);
  let known = 0;
  for (let i = width; i + width < count; i += 1) {
    const around = ((changes[i - width] ?? NaN) + (changes[i + width] ?? NaN)) / 2;
    const wiggle = (changes[i] ?? NaN) - around;
    wiggles[i] = wiggle;
    if (!Number.isNaN(wiggle)) known += 1;
  }
  if (known < 3 * width) return [];
  const steps: (SeenStep & { excess: number })[] = [];
  for (let i = 2 * width; i + 2 * width <= count; i += 1) {
    const change = changes[i] ?? 0;
    const around = Math.max(changes[i - width] ?? 0, changes[i + width] ?? 0, 0);
    const excess = change - around;
    const beforePa = levels[i - width] ?? 0;
    const atS = times[i] ?? 0;
    if (atS - isolatedS < SETTLING_S) continue;
    if (!(excess > STEP_SHARE * beforePa && excess > STEP_FACTOR * around)) continue;
    if ((spans[i] ?? Infinity) > SILENCE * usualSpanS) continue;
    if ((spans[i + width - 1] ?? Infinity) > SILENCE * usualSpanS) continue;
    if (excess < STEP_SIGMAS * noiseNear(wiggles, i, width)) continue;
    if (excess < STEP_QUANTA * quantumNear(pressures, i, width)) continue;
    const last = steps.at(-1);
    const usualPa = ((changes[i - width] ?? 0) + (changes[i + width] ?? 0)) / 2;
    const first = firstAfter(pressures, i, width, usualPa / width);
    const step = {
      fromS: times[first - 1] ?? atS,
      toS: times[first] ?? atS,
      sizePa: change - usualPa,
      excess,
    };
    if (last && step.fromS - last.toS < usualSpanS) {
      if (excess > last.excess) steps[steps.length - 1] = step;
    } else steps.push(step);
  }
  return steps;
}

/**
 * Medians change as much half a window too early or too late: the place is where two straight pieces, as
 * steep as the curve is around, leave the least squares.
 * @returns the first sample after the step
 */
function firstAfter(pressures: Float64Array, at: number, width: number, slopePa: number): number {
  const from = at - width;
  const flat = Array.from(
    { length: 2 * width },
    (_, j) => (pressures[from + j] ?? 0) - slopePa * j,
  );
  const sum = flat.reduce((all, value) => all + value, 0);
  let first = at;
  let best = -Infinity;
  let before = 0;
  for (let k = 1; k < 2 * width; k += 1) {
    before += flat[k - 1] ?? 0;
    if (Math.abs(k - width) > width / 2) continue;
    // What the squares about the two means are less than those about zero.
    const gain = before ** 2 / k + (sum - before) ** 2 / (2 * width - k);
    if (gain <= best) continue;
    best = gain;
    first = from + k;
  }
  return first;
}

/** Of wiggles within some 60 windows around, without those next to the place itself. */
function noiseNear(wiggles: Float64Array, at: number, width: number): number {
  const sizes: number[] = [];
  for (let i = at - 30 * width; i <= at + 30 * width; i += Math.max(1, width >> 1)) {
    const wiggle = wiggles[i];
    if (wiggle === undefined || Number.isNaN(wiggle) || Math.abs(i - at) < 2 * width) continue;
    sizes.push(Math.abs(wiggle));
  }
  return SIGMA_PER_MAD * median(sizes);
}

/**
 * By how much the readings around a place change, where they change at all, Pa: all but the largest
 * fifth of changes are no larger. For a display in steps that is its step.
 */
function quantumNear(pressures: Float64Array, at: number, width: number): number {
  const changes: number[] = [];
  for (let i = Math.max(at - 30 * width, 1); i < at + 30 * width && i < pressures.length; i += 1) {
    const change = Math.abs((pressures[i] ?? 0) - (pressures[i - 1] ?? 0));
    if (change > 1e-4) changes.push(change);
  }
  changes.sort((a, b) => a - b);
  return changes[Math.floor(0.8 * changes.length)] ?? 0;
}
