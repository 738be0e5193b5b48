/**
 * A sharp bend in the curve. What a valve does, it does within seconds; warmth, oil and drying walls
 * bend a curve smoothly. So a bend is what a parabola through the whole stretch can't follow: least
 * squares with a hinge (t − s)⁺ added to it, over all places s, the gain in units of its own noise.
 */
import type { Trace } from './trace.ts';

export interface Bend {
  readonly atS: number;
  /** Of the stretch that was looked at. */
  readonly lengthS: number;
  /** Change of slope in units of its standard error, the noise's memory counted in. */
  readonly sigmas: number;
  /** The gain over a bend that takes a few minutes, in the noise's variance. */
  readonly sharpness: number;
  /** Mean slopes of ln P on both sides, 1/s. */
  readonly beforePerS: number;
  readonly afterPerS: number;
  /** How far the curve, without noise, has gone since the bend, in ln P. */
  readonly since: number;
  /** ln P at the bend, without noise. */
  readonly log: number;
  /** Whether the slope before it was steady: its latter half no less than three fifths of its former. */
  readonly steadyBefore: boolean;
  /** How far the curve has been on the other side of the bend since, in ln P. */
  readonly dip: number;
  /** Smallest step between readings in the stretch, as a part of the reading: 0 if there is none. */
  readonly stepShare: number;
}

/** Groups of readings that are looked at; a bend lies between two of them. */
const MOST_GROUPS = 72;
/** Fewer than this on either side of it are no slope. */
const LEAST_ASIDE = 3;
/** Parabola and hinge, and its place. */
const PARAMETERS = 5;
/**
 * What warmth does takes its time: a sharp bend is held against one that takes twice so long, or twice
 * this part of the stretch where that is shorter. A setting of ours.
 */
const GENTLE_S = 75;
const GENTLE_SHARE = 0.2;
/** Nobody reads finer: a twentieth of a per cent, or a third of a micron's count. */
const LEAST_SIGMA = 5e-4;
const LEAST_SIGMA_PA = 0.04;

const STEADY_SHARE = 0.6;

/** Workspaces, so that looking allocates nothing: only one stretch is looked at at a time. */
const X = new Float64Array(MOST_GROUPS);
const Y = new Float64Array(MOST_GROUPS);
const H = new Float64Array(MOST_GROUPS);
const BASIS = [0, 1, 2].map(() => new Float64Array(MOST_GROUPS));

/**
 * @param from first reading of the stretch, and `to` one past the last
 * @param sign +1 for a bend upward, −1 for one downward
 * @returns null where there are too few readings, or none that way
 */
export function bendIn(trace: Trace, from: number, to: number, sign: 1 | -1): Bend | null {
  const count = group(trace, from, to);
  if (count < 2 * LEAST_ASIDE + 2) return null;
  const startS = trace.timeS(from);
  const lengthS = trace.timeS(to - 1) - startS;
  orthonormal(count);
  let rest = 0;
  const smooth = BASIS.map((column) => dot(column, Y, count));
  for (let i = 0; i < count; i += 1) {
    const left = (Y[i] ?? 0) - BASIS.reduce((sum, c, k) => sum + (smooth[k] ?? 0) * (c[i] ?? 0), 0);
    rest += left * left;
  }
  const { place, gain } = best(count, sign, 0);
  if (place < 0) return null;
  const gentleGain = best(count, sign, Math.min(GENTLE_S / lengthS, GENTLE_SHARE)).gain;
  const { size, length2 } = hinge(place, count, 0);
  const factor = size / length2;
  const fitted = (i: number): number =>
    BASIS.reduce((sum, c, k) => sum + (smooth[k] ?? 0) * (c[i] ?? 0), 0) + factor * (H[i] ?? 0);
  const memory = memoryOf(fitted, count);
  const stepShare = smallestStep(trace, from, to);
  const pressurePa = trace.pressuresPa[to - 1] ?? 1;
  const perGroup = (to - from) / count;
  const least =
    Math.hypot(LEAST_SIGMA, LEAST_SIGMA_PA / (pressurePa + 1), stepShare / Math.sqrt(12)) /
    Math.sqrt(perGroup);
  const variance = Math.max((rest - gain) / Math.max(count - PARAMETERS, 1), least * least);
  const scaleS = lengthS > 0 ? lengthS : 1;
  const atX = X[place] ?? 0;
  const [first, last, log] = [fitted(0), fitted(count - 1), fitted(place)];
  return {
    atS: startS + atX * scaleS,
    lengthS,
    sigmas: Math.sqrt(gain / (variance * memory)),
    sharpness: (gain - gentleGain) / (variance * memory),
    beforePerS: (log - first) / Math.max((atX - (X[0] ?? 0)) * scaleS, 1e-9),
    afterPerS: (last - log) / Math.max(((X[count - 1] ?? 1) - atX) * scaleS, 1e-9),
    since: last - log,
    log,
    steadyBefore:
      STEADY_SHARE * slopeOf(0, place >> 1) * -sign <= slopeOf(place >> 1, place) * -sign,
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
    X[g] = (x / (end - first) - startS) / lengthS;
    Y[g] = y / (end - first);
  }
  return count;
}

/** 1, x, x² made orthonormal on the places that there are (Gram and Schmidt). */
function orthonormal(count: number): void {
  for (const [power, column] of BASIS.entries()) {
    for (let i = 0; i < count; i += 1) column[i] = ((X[i] ?? 0) - 0.5) ** power;
    for (const earlier of BASIS.slice(0, power)) subtract(column, earlier, count);
    const length = Math.sqrt(dot(column, column, count));
    for (let i = 0; i < count; i += 1) {
      column[i] = length > 1e-9 ? (column[i] ?? 0) / length : 0;
    }
  }
}

/** The place at which a bend gains most over the parabola alone; −1: nowhere. */
function best(count: number, sign: 1 | -1, halfWidth: number): { place: number; gain: number } {
  let [place, gain] = [-1, 0];
  for (let i = LEAST_ASIDE - 1; i < count - LEAST_ASIDE; i += 1) {
    const { size, length2 } = hinge(i, count, halfWidth);
    if (sign * size <= 0 || length2 < 1e-12) continue;
    if ((size * size) / length2 > gain) [place, gain] = [i, (size * size) / length2];
  }
  return { place, gain };
}

/** What the parabola has not of a hinge at a place, which turns over twice the half width: left in `H`. */
function hinge(place: number, count: number, halfWidth: number) {
  const at = X[place] ?? 0;
  for (let i = 0; i < count; i += 1) {
    const beyond = (X[i] ?? 0) - at;
    if (beyond >= halfWidth) H[i] = beyond;
    else if (beyond <= -halfWidth) H[i] = 0;
    else H[i] = (beyond + halfWidth) ** 2 / (4 * halfWidth);
  }
  for (const column of BASIS) subtract(H, column, count);
  return { size: dot(H, Y, count), length2: dot(H, H, count) };
}

/**
 * By how much the noise's memory widens a variance: (1 + ρ)/(1 − ρ) of a first-order autoregression
 * (Priestley, Spectral Analysis and Time Series, from memory), ρ the correlation of neighbours.
 */
function memoryOf(fitted: (i: number) => number, count: number): number {
  let [own, next, before] = [0, 0, 0];
  for (let i = 0; i < count; i += 1) {
    const left = (Y[i] ?? 0) - fitted(i);
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
    const [before, here] = [trace.pressuresPa[i - 1] ?? 0, trace.pressuresPa[i] ?? 0];
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
    x += X[i] ?? 0;
    y += Y[i] ?? 0;
    xx += (X[i] ?? 0) ** 2;
    xy += (X[i] ?? 0) * (Y[i] ?? 0);
  }
  const spread = xx - (x * x) / count;
  return spread > 0 ? (xy - (x * y) / count) / spread : 0;
}

function dipAfter(place: number, count: number, log: number, sign: 1 | -1): number {
  let most = 0;
  for (let i = place + 1; i < count; i += 1) most = Math.max(most, sign * (log - (Y[i] ?? 0)));
  return most;
}

function dot(a: Float64Array, b: Float64Array, count: number): number {
  let sum = 0;
  for (let i = 0; i < count; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}

function subtract(from: Float64Array, unit: Float64Array, count: number): void {
  const share = dot(from, unit, count);
  for (let i = 0; i < count; i += 1) from[i] = (from[i] ?? 0) - share * (unit[i] ?? 0);
}
