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

/** The posterior at certain amplitudes. */
export interface State {
  readonly amplitudes: Float64Array;
  /** Twice the negative logarithm of the posterior, but for a constant. */
  readonly cost: number;
  /** The part of it that is the pressures'. */
  readonly misfit: number;
  readonly gradient: () => Float64Array;
  readonly curvature: () => Float64Array;
}

export function look(
  data: DecayData,
  count: number,
  amplitudes: Float64Array,
  prior: Prior,
): State {
  const size = amplitudes.length;
  const weight = 1 / (data.sigma * data.sigma);
  const heights = amplitudes.map((log) => Math.exp(log));
  const shares = new Float64Array(count * size);
  const rests = new Float64Array(count);
  let misfit = 0;
  for (let row = 0; row < count; row += 1) {
    const at = row * size;
    let sum = 0;
    for (let k = 0; k < size; k += 1) {
      const part = (heights[k] ?? 0) * (data.basis[at + k] ?? 0);
      shares[at + k] = part;
      sum += part;
    }
    for (let k = 0; k < size; k += 1) shares[at + k] = (shares[at + k] ?? 0) / sum;
    const rest = (data.logs[row] ?? 0) - Math.log(sum);
    rests[row] = rest;
    misfit += rest * rest * weight;
  }
  const pull = new Float64Array(size);
  let cost = misfit;
  for (let i = 0; i < size; i += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      sum += (prior.precision[i * size + j] ?? 0) * (amplitudes[j] ?? 0);
    }
    pull[i] = (prior.linear[i] ?? 0) - sum;
    cost += (amplitudes[i] ?? 0) * (sum - 2 * (prior.linear[i] ?? 0));
  }
  return {
    amplitudes,
    cost,
    misfit,
    gradient: () => {
      const gradient = Float64Array.from(pull);
      for (let row = 0; row < count; row += 1) {
        const rest = (rests[row] ?? 0) * weight;
        for (let k = 0; k < size; k += 1) {
          gradient[k] = (gradient[k] ?? 0) + rest * (shares[row * size + k] ?? 0);
        }
      }
      return gradient;
    },
    curvature: () => {
      const curvature = new Float64Array(size * size);
      for (let row = 0; row < count; row += 1) {
        const at = row * size;
        for (let i = 0; i < size; i += 1) {
          const left = (shares[at + i] ?? 0) * weight;
          // What has decayed away contributes nothing: half of the work is saved.
          if (left < 1e-9 * weight) continue;
          for (let j = 0; j <= i; j += 1) {
            curvature[i * size + j] = (curvature[i * size + j] ?? 0) + left * (shares[at + j] ?? 0);
          }
        }
      }
      for (let i = 0; i < size; i += 1) {
        for (let j = 0; j <= i; j += 1) {
          const value = (curvature[i * size + j] ?? 0) + (prior.precision[i * size + j] ?? 0);
          curvature[i * size + j] = value;
          curvature[j * size + i] = value;
        }
      }
      return curvature;
    },
  };
}
