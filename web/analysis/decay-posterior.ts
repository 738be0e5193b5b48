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
  /** ∂ ln P/∂ ln a, pressure by pressure: what each decay contributes, as a part. */
  readonly shares: Float64Array;
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
    rests: new Float64Array(count),
    pull: new Float64Array(size),
    cost: Infinity,
    misfit: Infinity,
  };
}

/** Works out how good a state's amplitudes are. */
export function look(data: DecayData, prior: Prior, state: State): void {
  const { amplitudes, shares, rests, pull } = state;
  const { basis, logs } = data;
  const size = amplitudes.length;
  const heights = amplitudes.map(Math.exp);
  let square = 0;
  for (let row = 0; row < rests.length; row += 1) {
    const at = row * size;
    let sum = 0;
    for (let k = 0; k < size; k += 1) {
      const part = (heights[k] ?? 0) * (basis[at + k] ?? 0);
      shares[at + k] = part;
      sum += part;
    }
    const scale = 1 / sum;
    for (let k = 0; k < size; k += 1) shares[at + k] = (shares[at + k] ?? 0) * scale;
    const rest = (logs[row] ?? 0) - Math.log(sum);
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
export function gradientOf({ sigma }: DecayData, { pull, rests, shares }: State): Float64Array {
  const size = pull.length;
  const gradient = Float64Array.from(pull);
  for (let row = 0; row < rests.length; row += 1) {
    const rest = (rests[row] ?? 0) / (sigma * sigma);
    for (let k = 0; k < size; k += 1) {
      gradient[k] = (gradient[k] ?? 0) + rest * (shares[row * size + k] ?? 0);
    }
  }
  return gradient;
}

/** What has decayed to less than this contributes nothing: half of the work is saved. */
const LEAST_SHARE = 1e-9;

/** Its second derivative, by Gauss and Newton. */
export function curvatureOf(data: DecayData, prior: Prior, { rests, shares }: State): Float64Array {
  const size = prior.linear.length;
  const curvature = new Float64Array(size * size);
  for (let at = 0; at < rests.length * size; at += size) {
    for (let i = 0; i < size; i += 1) {
      const left = shares[at + i] ?? 0;
      if (left < LEAST_SHARE) continue;
      const to = i * size;
      for (let j = 0; j <= i; j += 1) {
        curvature[to + j] = (curvature[to + j] ?? 0) + left * (shares[at + j] ?? 0);
      }
    }
  }
  const weight = 1 / (data.sigma * data.sigma);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      const at = i * size + j;
      const value = weight * (curvature[at] ?? 0) + (prior.precision[at] ?? 0);
      curvature[at] = value;
      curvature[j * size + i] = value;
    }
  }
  return curvature;
}
