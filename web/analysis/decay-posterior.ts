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
  const linear = new Float64Array(size);
  const add = (at: number, weight: number, mean: number) => {
    precision[at * size + at] = (precision[at * size + at] ?? 0) + weight;
    linear[at] = (linear[at] ?? 0) + weight * mean;
  };
  const perStep = 1 / (WANDER * WANDER * Math.log(GRID_STEP));
  const drift = SLOPE * Math.log(GRID_STEP);
  for (let k = 0; k + 2 < size; k += 1) {
    // (aₖ₊₁ − aₖ − drift)² / variance
    add(k, perStep, -drift);
    add(k + 1, perStep, drift);
    precision[k * size + k + 1] = (precision[k * size + k + 1] ?? 0) - perStep;
    precision[(k + 1) * size + k] = (precision[(k + 1) * size + k] ?? 0) - perStep;
  }
  add((size - 1) >> 1, 1 / SIZE_SPREAD ** 2, data.logs[count - 1] ?? 0);
  add(size - 1, 1 / floor.spread ** 2, floor.log);
  return { precision, linear };
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

export function emptyState(size: number, count: number): State {
  return {
    amplitudes: new Float64Array(size),
    shares: new Float64Array(count * size),
    known: new Int32Array(size),
    rests: new Float64Array(count),
    pull: new Float64Array(size),
    cost: Infinity,
    misfit: Infinity,
  };
}

/** A part of the pressure that is less than this is none: half of the work is saved. */
const LEAST_SHARE = 1e-9;

/** Works out how good a state's amplitudes are. */
export function look(data: DecayData, prior: Prior, state: State): void {
  const { amplitudes, shares, known, rests, pull } = state;
  const { basis, logs } = data;
  const [size, count] = [amplitudes.length, rests.length];
  // Here for the sums of all decays, at first.
  rests.fill(0);
  for (let k = 0; k < size; k += 1) {
    const height = Math.exp(amplitudes[k] ?? 0);
    const [from, to] = [k * logs.length, k * count];
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
  state.misfit = square / (data.sigma * data.sigma);
  state.cost = state.misfit;
  for (let i = 0; i < size; i += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      sum += (prior.precision[i * size + j] ?? 0) * (amplitudes[j] ?? 0);
    }
    pull[i] = (prior.linear[i] ?? 0) - sum;
    state.cost += (amplitudes[i] ?? 0) * (sum - 2 * (prior.linear[i] ?? 0));
  }
}

/** Which way, and how far, the posterior grows. */
export function gradientOf({ sigma }: DecayData, state: State): Float64Array {
  const { pull, rests, shares, known } = state;
  const weight = 1 / (sigma * sigma);
  return pull.map((own, k) => {
    let sum = 0;
    for (let row = 0; row < (known[k] ?? 0); row += 1) {
      sum += (rests[row] ?? 0) * (shares[k * rests.length + row] ?? 0);
    }
    return own + weight * sum;
  });
}

/** Its second derivative, by Gauss and Newton. */
export function curvatureOf(data: DecayData, prior: Prior, state: State): Float64Array {
  const { shares, known, rests } = state;
  const size = known.length;
  const weight = 1 / (data.sigma * data.sigma);
  const curvature = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      const rows = Math.min(known[i] ?? 0, known[j] ?? 0);
      const sum = productOf(shares, i * rests.length, j * rests.length, rows);
      const value = weight * sum + (prior.precision[i * size + j] ?? 0);
      curvature[i * size + j] = value;
      curvature[j * size + i] = value;
    }
  }
  return curvature;
}

/** Σ of the products of two stretches; two sums side by side, since each addition waits for the last. */
function productOf(values: Float64Array, left: number, right: number, length: number): number {
  let [even, odd] = [0, 0];
  let row = 0;
  for (; row + 1 < length; row += 2) {
    even += (values[left + row] ?? 0) * (values[right + row] ?? 0);
    odd += (values[left + row + 1] ?? 0) * (values[right + row + 1] ?? 0);
  }
  return row < length
    ? even + odd + (values[left + row] ?? 0) * (values[right + row] ?? 0)
    : even + odd;
}
