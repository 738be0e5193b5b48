/** Whether a system that has been judged loses its vacuum while it is closed up. */
import type { Mark } from '../../../protocol/mark.ts';
import { median, mediansAlong } from '../fitting/median.ts';
import type { TimeBin } from '../readings/bin-level.ts';
import type { History } from '../readings/history.ts';
import { SIGMA_PER_MAD, type Sample, samplesFromBins } from '../readings/samples.ts';

export interface VacuumLoss {
  /** The first moment of it, and when it was certain, data time, s. */
  readonly atS: number;
  readonly knownS: number;
  /** Where it stood before, Pa. */
  readonly fromPa: number;
  /** Where it stands, Pa; null where that is beyond the sensor's range. */
  readonly toPa: number | null;
}

/** What came before is taken over this, s: a rise is told from the hold's own by how much it is in a minute. */
const BEFORE_S = 60;
/** It has to stay up all this long, s, and in so many samples: a spike, or two, is none. */
const HELD_S = 6;
const HELD_SAMPLES = 4;
/**
 * It rises by this part of the pressure: a metal that the sun comes upon warms by a kelvin a minute at
 * most, and water's vapour pressure then rises by 6.4 % (near 20 °C; Wagner and Pruß 1995) …
 */
const LEAST_SHARE = 0.1;
/** … by so many times what the hold itself ever rose in as long … */
const TIMES_HOLD = 4;
/** … by so many times what counts as a leak would add … */
const TIMES_LEAK = 2;
/** … and out of the noise, by standard deviations of a median of five. Settings of ours. */
const NOISE_SIGMAS = 8;
/** A display's own steps are smaller than this part of it. */
const STEP_QUANTA = 2.5;
/** The later half of the hold is what it is held against: a beginning is quick by itself. */
const HOLD_PART = 0.5;
/** Of a hold that is older than this the latest so long before it was judged, s. */
const LONGEST_HOLD_S = 1800;

/**
 * A step, or a rise much quicker than that of the hold, after it was judged; the first one, or null.
 * @param isolatedS beginning of the hold
 * @param judgedS when it was judged: nothing before that counts
 * @param leakLimitPaPerS what counts as a leak
 */
export function vacuumLoss(
  history: History,
  { isolatedS, judgedS }: { readonly isolatedS: number; readonly judgedS: number },
  nowS: number,
  leakLimitPaPerS: number,
): VacuumLoss | null {
  const fromS = Math.max(judgedS - HOLD_PART * (judgedS - isolatedS), judgedS - LONGEST_HOLD_S);
  const hold = samplesFromBins(history.bins(fromS, judgedS));
  if (hold.length < 2 * HELD_SAMPLES) return null;
  const after = pointsOf(history.bins(judgedS, nowS));
  const points = [...hold, ...after];
  const own = riseOfHold(hold);
  for (let first = hold.length; first + HELD_SAMPLES <= points.length; first += 1) {
    if (!isPerhapsHigher(points, first)) continue;
    const before = levelBefore(points, first);
    const startS = points[first]?.elapsedS ?? 0;
    const minutes = Math.max((startS - before.elapsedS) / BEFORE_S, 1);
    const risesPa = Math.max(
      LEAST_SHARE * before.pressurePa,
      TIMES_HOLD * own.perMinutePa * minutes,
      TIMES_LEAK * leakLimitPaPerS * BEFORE_S * minutes,
      NOISE_SIGMAS * own.noisePa,
      STEP_QUANTA * own.quantumPa,
    );
    const knownS = heldAbove(points, first, before.pressurePa + risesPa);
    if (knownS === null) continue;
    const latest = median(points.slice(-HELD_SAMPLES).map(({ pressurePa }) => pressurePa));
    const toPa = Number.isFinite(latest) ? latest : null;
    return { atS: startS, knownS, fromPa: before.pressurePa, toPa };
  }
  return null;
}

/** A hand marks what it did within so long of it, s. */
const MARKED_WITHIN_S = 60;

/** Whether the jump is that of the charge, marked at once or a moment late; one long before it is not. */
export function isOfRelease({ atS }: Pick<VacuumLoss, 'atS'>, marks: readonly Mark[]): boolean {
  return marks.some(
    ({ kind, elapsedS }) => kind === 'charge_released' && atS >= elapsedS - MARKED_WITHIN_S,
  );
}

type Point = Pick<Sample, 'elapsedS' | 'pressurePa'>;

/** With what is beyond the sensor's range, and with spikes: what holds is asked for below. */
function pointsOf(bins: readonly TimeBin[]): Point[] {
  // A bin without a pressure was over range: none stands for readings that failed.
  return bins.map(({ elapsedS, pressurePa }) => ({ elapsedS, pressurePa: pressurePa ?? Infinity }));
}

/** The median of what came before is no lower than the lowest of it: what is no higher than that is no rise. */
function isPerhapsHigher(points: readonly Point[], first: number): boolean {
  const point = points[first];
  if (point === undefined) return false;
  const least = point.pressurePa / (1 + LEAST_SHARE);
  for (let i = first - 1; i >= 0; i -= 1) {
    const earlier = points[i];
    if (earlier === undefined) return false;
    const isWithin = earlier.elapsedS >= point.elapsedS - BEFORE_S || first - i <= HELD_SAMPLES;
    if (!isWithin) return false;
    if (earlier.pressurePa < least) return true;
  }
  return false;
}

/** The median of the minute before, or of the last few before a silence. */
function levelBefore(points: readonly Point[], first: number): Point {
  const startS = points[first]?.elapsedS ?? 0;
  let from = first;
  while (from > 0 && (points[from - 1]?.elapsedS ?? -Infinity) >= startS - BEFORE_S) from -= 1;
  const window = points.slice(Math.min(from, Math.max(first - HELD_SAMPLES, 0)), first);
  return {
    elapsedS: median(window.map(({ elapsedS }) => elapsedS)),
    pressurePa: median(window.map(({ pressurePa }) => pressurePa)),
  };
}

/** When it was certain that it stays above; null where it doesn't, or hasn't yet for long enough. */
function heldAbove(points: readonly Point[], first: number, limitPa: number): number | null {
  const startS = points[first]?.elapsedS ?? 0;
  for (let i = first; i < points.length; i += 1) {
    const point = points[i];
    if (point === undefined || !(point.pressurePa > limitPa)) return null;
    if (i - first + 1 >= HELD_SAMPLES && point.elapsedS - startS >= HELD_S) return point.elapsedS;
  }
  return null;
}

/** By how much the hold itself rose in a minute, at most; its noise; and its display's step, Pa. */
function riseOfHold(hold: readonly Sample[]) {
  const pressures = hold.map(({ pressurePa }) => pressurePa);
  const smooth = mediansAlong(pressures, 2, 2);
  let perMinutePa = 0;
  let from = 0;
  for (const [i, { elapsedS }] of hold.entries()) {
    while ((hold[from + 1]?.elapsedS ?? Infinity) <= elapsedS - BEFORE_S) from += 1;
    const spanS = elapsedS - (hold[from]?.elapsedS ?? elapsedS);
    const rise = (smooth[i] ?? 0) - (smooth[from] ?? 0);
    if (spanS >= BEFORE_S / 2) perMinutePa = Math.max(perMinutePa, (rise * BEFORE_S) / spanS);
  }
  const changes = pressures
    .slice(1)
    .map((pressurePa, i) => Math.abs(pressurePa - (pressures[i] ?? 0)));
  const bends = changes.slice(1).map((_, i) => {
    const [a = 0, b = 0, c = 0] = pressures.slice(i, i + 3);
    return Math.abs(a - 2 * b + c);
  });
  const steps = changes.filter((change) => change > 1e-4).sort((a, b) => a - b);
  return {
    perMinutePa,
    // Of y₀ − 2y₁ + y₂ of independent readings the variance is 1 + 4 + 1.
    noisePa: (SIGMA_PER_MAD * median(bends)) / Math.sqrt(6),
    quantumPa: steps[Math.floor(0.2 * steps.length)] ?? 0,
  };
}
