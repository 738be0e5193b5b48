/**
 * A sharp bend in the curve. What a valve does, it does within seconds; warmth, oil and drying walls
 * bend a curve smoothly. So a bend is what a parabola through the whole stretch can't follow: least
 * squares with a hinge (t − s)⁺ added to it, over all places s, the gain in units of its own noise.
 */
import { HingeFitter } from '../fitting/hinge-fit.ts';
import type { Trace } from './trace.ts';

export interface Bend {
  readonly atS: number;
  /** Of the stretch that was looked at. */
  readonly lengthS: number;
  /** Change of slope in units of its standard error, the noise's memory counted in. */
  readonly sigmas: number;
  /**
   * The gain over a bend that takes a few minutes, in the noise's variance. Over less than three minutes
   * such a one is a parabola: infinite.
   */
  readonly sharpness: number;
  /** Mean slopes of ln P on both sides, 1/s. */
  readonly beforePerS: number;
  readonly afterPerS: number;
  /** How far the curve, without noise, has gone since the bend, in ln P. */
  readonly since: number;
  /** ln P at the bend, without noise. */
  readonly log: number;
  /** Whether the slope before it was steady: its latter half no less than three quarters of its former. */
  readonly steadyBefore: boolean;
  /** How far the curve has been on the other side of the bend since, in ln P. */
  readonly dip: number;
  /** Smallest step between readings in the stretch, as a part of the reading: 0 if there is none. */
  readonly stepShare: number;
}

/** Groups of readings that are looked at; a bend lies between two of them. */
const MOST_GROUPS = 48;
/** Fewer than this on either side of it are no slope. */
const LEAST_ASIDE = 3;
/** Parabola and hinge, and its place. */
const PARAMETERS = 5;
/** Hundreds of stretches are looked at in an hour, at dozens of places each: less is chance. */
const LEAST_SIGMAS = 6;
/**
 * What warmth does takes its time: a sharp bend is held against one that takes twice so long, or twice
 * this part of the stretch where that is shorter. A setting of ours.
 */
const GENTLE_S = 75;
const GENTLE_SHARE = 0.2;
const GENTLE_FROM_S = 200;
/** Nobody reads finer: a twentieth of a per cent, or a third of a micron's count. */
const LEAST_SIGMA = 5e-4;
const LEAST_SIGMA_PA = 0.04;
const STEADY_SHARE = 0.75;

/** Only one stretch is looked at at a time. */
const FIT = new HingeFitter(MOST_GROUPS);
const CURVE = new Float64Array(MOST_GROUPS);

/**
 * @param from first reading of the stretch, and `to` one past the last
 * @param sign +1 for a bend upward, −1 for one downward
 * @returns null where there are too few readings, or no bend that way that stands out
 */
export function bendIn(trace: Trace, from: number, to: number, sign: 1 | -1): Bend | null {
  const count = group(trace, from, to);
  if (count < 2 * LEAST_ASIDE + 2) return null;
  FIT.prepare(count);
  const [first, last] = [LEAST_ASIDE - 1, count - LEAST_ASIDE - 1];
  const sharp = FIT.sharpest(first, last, sign);
  if (sharp === null) return null;
  const { place, gain } = sharp;
  const stepShare = smallestStep(trace, from, to);
  const least = leastSigma(trace.pressurePa(to - 1), stepShare) / Math.sqrt((to - from) / count);
  const variance = Math.max((FIT.rest - gain) / Math.max(count - PARAMETERS, 1), least * least);
  if (gain < LEAST_SIGMAS * LEAST_SIGMAS * variance) return null;
  FIT.curve(sharp, CURVE);
  const widened = variance * memoryOf(count);
  if (gain < LEAST_SIGMAS * LEAST_SIGMAS * widened) return null;

  const startS = trace.timeS(from);
  const lengthS = Math.max(trace.timeS(to - 1) - startS, 1e-9);
  const gentle =
    lengthS < GENTLE_FROM_S
      ? null
      : FIT.gentlest(first, last, sign, Math.min(GENTLE_S / lengthS, GENTLE_SHARE));
  const [startX, atX, endX] = [FIT.x[0] ?? 0, FIT.x[place] ?? 0, FIT.x[count - 1] ?? 0];
  const [start, log, end] = [CURVE[0] ?? 0, CURVE[place] ?? 0, CURVE[count - 1] ?? 0];
  const halfway = place >> 1;
  return {
    atS: startS + atX * lengthS,
    lengthS,
    sigmas: Math.sqrt(gain / widened),
    sharpness: gentle === null ? Infinity : (gain - gentle.gain) / widened,
    beforePerS: (log - start) / ((atX - startX) * lengthS),
    afterPerS: (end - log) / ((endX - atX) * lengthS),
    since: end - log,
    log,
    steadyBefore: -sign * slopeOf(halfway, place) >= -sign * STEADY_SHARE * slopeOf(0, halfway),
    dip: dipAfter(place, count, log, sign),
    stepShare,
  };
}

/** Means over equal numbers of readings; times as parts of the stretch. */
function group(trace: Trace, from: number, to: number): number {
  const readings = to - from;
  const count = Math.min(readings, MOST_GROUPS);
  const startS = trace.timeS(from);
  const lengthS = Math.max(trace.timeS(to - 1) - startS, 1e-9);
  for (let g = 0; g < count; g += 1) {
    const first = from + Math.floor((g * readings) / count);
    const end = from + Math.floor(((g + 1) * readings) / count);
    let [x, y] = [0, 0];
    for (let i = first; i < end; i += 1) {
      x += trace.timeS(i);
      y += trace.log(i);
    }
    FIT.x[g] = (x / (end - first) - startS) / lengthS;
    FIT.y[g] = y / (end - first);
  }
  return count;
}

/** Of a single reading, in ln P: no sensor is better, and none better than its own steps (Δ/√12). */
function leastSigma(pressurePa: number, stepShare: number): number {
  return Math.hypot(LEAST_SIGMA, LEAST_SIGMA_PA / (pressurePa + 1), stepShare / Math.sqrt(12));
}

/**
 * By how much the noise's memory widens a variance: (1 + ρ)/(1 − ρ) of a first-order autoregression
 * (Priestley, Spectral Analysis and Time Series, from memory), ρ the correlation of neighbours.
 */
function memoryOf(count: number): number {
  let [own, next, before] = [0, 0, 0];
  for (let i = 0; i < count; i += 1) {
    const left = (FIT.y[i] ?? 0) - (CURVE[i] ?? 0);
    own += left * left;
    if (i > 0) next += left * before;
    before = left;
  }
  const rho = own > 0 ? Math.min(Math.max(next / own, 0), 0.9) : 0;
  return (1 + rho) / (1 - rho);
}

function smallestStep(trace: Trace, from: number, to: number): number {
  let least = Infinity;
  let highest = 0;
  for (let i = from + 1; i < to; i += 1) {
    const [before, here] = [trace.pressurePa(i - 1), trace.pressurePa(i)];
    const stepPa = Math.abs(here - before);
    if (stepPa > 1e-9 && stepPa < least) least = stepPa;
    if (here > highest) highest = here;
  }
  return highest > 0 && least < Infinity ? least / highest : 0;
}

/** Of the straight line through the groups from one to another, both among them. */
function slopeOf(first: number, last: number): number {
  const count = last - first + 1;
  let [x, y, xx, xy] = [0, 0, 0, 0];
  for (let i = first; i <= last; i += 1) {
    x += FIT.x[i] ?? 0;
    y += FIT.y[i] ?? 0;
    xx += (FIT.x[i] ?? 0) ** 2;
    xy += (FIT.x[i] ?? 0) * (FIT.y[i] ?? 0);
  }
  const spread = xx - (x * x) / count;
  return spread > 0 ? (xy - (x * y) / count) / spread : 0;
}

function dipAfter(place: number, count: number, log: number, sign: 1 | -1): number {
  let most = 0;
  for (let i = place + 1; i < count; i += 1) {
    most = Math.max(most, sign * (log - (FIT.y[i] ?? 0)));
  }
  return most;
}
