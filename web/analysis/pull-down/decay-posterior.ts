/**
 * What readings and prior together say of a spectrum's amplitudes: how good a set of them is, which
 * way is better, and how sharply it is known.
 */
import { GRID_STEP, type DecayData, type FloorPrior } from './decay-spectrum.ts';

/**
 * Of ln a per unit of ln τ: the amplitude falls with τ as in a tail like t^(−0.8), between diffusion
 * (1/√t) and a wide spread of binding energies (1/t), and wanders by a factor e^3 or so. Settings
 * of ours; half as much or twice as much of either changes little on training curves.
 */
export const SLOPE = -0.8;
const WANDER = 3;
/** Nothing is known of the amplitudes' size: within a factor e^6 of the pressure. */
const SIZE_SPREAD = 6;

/** The prior as ½·aᵀΛa − λᵀa. */
export interface Prior {
  readonly precision: Float64Array;
  readonly linear: Float64Array;
}

export function priorOf(data: DecayData, count: number, floor: FloorPrior): Prior {
  const size = data.tausS.length + 1;
  const precision = new Float64Array(size * size);
  const prior = { precision, linear: new Float64Array(size) };
  const perStep = 1 / (WANDER * WANDER * Math.log(GRID_STEP));
  const drift = SLOPE * Math.log(GRID_STEP);
  for (let k = 0; k + 2 < size; k += 1) {
    // (aₖ₊₁ − aₖ − drift)² / variance
    believe(prior, k, perStep, -drift);
    believe(prior, k + 1, perStep, drift);
    precision[k * size + k + 1] = (precision[k * size + k + 1] ?? 0) - perStep;
    precision[(k + 1) * size + k] = (precision[(k + 1) * size + k] ?? 0) - perStep;
  }
  believe(prior, (size - 1) >> 1, 1 / SIZE_SPREAD ** 2, data.logs[count - 1] ?? 0);
  believe(prior, size - 1, 1 / floor.spread ** 2, floor.log);
  return prior;
}

/** That one of the amplitudes is about so large, in ln. */
function believe({ precision, linear }: Prior, at: number, weight: number, mean: number): void {
  const place = at * linear.length + at;
  precision[place] = (precision[place] ?? 0) + weight;
  linear[at] = (linear[at] ?? 0) + weight * mean;
}

/** The posterior at certain amplitudes; its numbers are written over when they are looked at anew. */
export interface State {
  readonly amplitudes: Float64Array;
  /** ∂ ln P/∂ ln a, decay by decay: what each contributes to each pressure, as a part. */
  readonly shares: Float64Array;
  /** So many of the pressures know of each decay at all; later on nothing is left of it. */
  readonly known: Int32Array;
  /** ln P as read, less as fitted. */
  readonly rests: Float64Array;
  /** The prior's part of the gradient. */
  readonly pull: Float64Array;
  /** Twice the negative logarithm of the posterior, but for a constant. */
  cost: number;
  /** The part of it that is the pressures'. */
  misfit: number;
}

/** Room for states, one for each fit that goes on at a time: looking at another allocates next to nothing. */
export class StateRoom {
  #amplitudes = new Float64Array(0);
  #shares = new Float64Array(0);
  #known = new Int32Array(0);
  #rests = new Float64Array(0);
  #pull = new Float64Array(0);

  /** The room for it is that of the state before: what stood there is anything. */
  state(size: number, count: number): State {
    if (size > this.#amplitudes.length) {
      this.#amplitudes = new Float64Array(2 * size);
      this.#known = new Int32Array(2 * size);
      this.#pull = new Float64Array(2 * size);
    }
    if (count > this.#rests.length) this.#rests = new Float64Array(2 * count);
    if (count * size > this.#shares.length) this.#shares = new Float64Array(2 * count * size);
    return {
      amplitudes: this.#amplitudes.subarray(0, size),
      shares: this.#shares.subarray(0, count * size),
      known: this.#known.subarray(0, size),
      rests: this.#rests.subarray(0, count),
      pull: this.#pull.subarray(0, size),
      cost: Infinity,
      misfit: Infinity,
    };
  }
}

/** A part of the pressure that is less than this is none: half of the work is saved. */
const LEAST_SHARE = 1e-9;

/** Works out how good a state's amplitudes are. */
export function look(data: DecayData, prior: Prior, state: State): void {
  const { amplitudes, shares, known, rests, pull } = state;
  const { basis, logs } = data;
  const { precision, linear } = prior;
  const size = amplitudes.length;
  const count = rests.length;
  // Here for the sums of all decays, at first.
  rests.fill(0);
  for (let k = 0; k < size; k += 1) {
    const height = Math.exp(amplitudes[k] ?? 0);
    const from = k * logs.length;
    const to = k * count;
    for (let row = 0; row < count; row += 1) {
      const part = height * (basis[from + row] ?? 0);
      shares[to + row] = part;
      rests[row] = (rests[row] ?? 0) + part;
    }
  }
  for (let k = 0; k < size; k += 1) {
    const to = k * count;
    let last = 0;
    for (let row = 0; row < count; row += 1) {
      const share = (shares[to + row] ?? 0) / (rests[row] ?? 1);
      shares[to + row] = share;
      if (share >= LEAST_SHARE) last = row + 1;
    }
    known[k] = last;
  }
  let square = 0;
  for (let row = 0; row < count; row += 1) {
    const rest = (logs[row] ?? 0) - Math.log(rests[row] ?? 1);
    rests[row] = rest;
    square += rest * rest;
  }
  const misfit = square / (data.sigma * data.sigma);
  let cost = misfit;
  for (let i = 0; i < size; i += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      sum += (precision[i * size + j] ?? 0) * (amplitudes[j] ?? 0);
    }
    pull[i] = (linear[i] ?? 0) - sum;
    cost += (amplitudes[i] ?? 0) * (sum - 2 * (linear[i] ?? 0));
  }
  state.misfit = misfit;
  state.cost = cost;
}

/** Which way, and how far, the posterior grows. */
export function gradientOf({ sigma }: DecayData, state: State, gradient: Float64Array): void {
  const { pull, rests, shares, known } = state;
  const weight = 1 / (sigma * sigma);
  const count = rests.length;
  for (let k = 0; k < gradient.length; k += 1) {
    const rows = known[k] ?? 0;
    let sum = 0;
    for (let row = 0; row < rows; row += 1) {
      sum += (rests[row] ?? 0) * (shares[k * count + row] ?? 0);
    }
    gradient[k] = (pull[k] ?? 0) + weight * sum;
  }
}

/** Its second derivative, by Gauss and Newton. */
export function curvatureOf(
  data: DecayData,
  prior: Prior,
  state: State,
  curvature: Float64Array,
): void {
  const { shares, known, rests } = state;
  const size = known.length;
  const weight = 1 / (data.sigma * data.sigma);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      const rows = Math.min(known[i] ?? 0, known[j] ?? 0);
      const sum = productOf(shares, i * rests.length, j * rests.length, rows);
      const value = weight * sum + (prior.precision[i * size + j] ?? 0);
      curvature[i * size + j] = value;
      curvature[j * size + i] = value;
    }
  }
}

/** Σ of the products of two stretches; two sums side by side, since each addition waits for the last. */
function productOf(values: Float64Array, left: number, right: number, length: number): number {
  let even = 0;
  let odd = 0;
  let row = 0;
  for (; row + 1 < length; row += 2) {
    even += (values[left + row] ?? 0) * (values[right + row] ?? 0);
    odd += (values[left + row + 1] ?? 0) * (values[right + row + 1] ?? 0);
  }
  return row < length
    ? even + odd + (values[left + row] ?? 0) * (values[right + row] ?? 0)
    : even + odd;
}
